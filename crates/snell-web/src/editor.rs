//! What an editor asks that runs in a browser: the findings as it tells them,
//! layout, names in all files, and what stands beside the lines. The language
//! server answers the same questions by the same functions.

use crate::answers::{Beside, Changed, Elsewhere, Noted, Outlined, Stretch, Total};
use crate::page::{ASKED, Asking, Page, Told, told};
use snell_analysis::Notebook;
use snell_finding::Finding;
use snell_ide::{Symbol, Which};
use snell_text::{Place, Span, Utf16};

impl Page {
    /// What is wrong in a file, as an editor tells it.
    ///
    /// # Errors
    /// There is no such file.
    pub fn findings(&mut self, file: &str) -> Told {
        let asking = self.ask(file)?;
        let findings = asking.findings();
        told(
            &findings
                .iter()
                .map(|finding| asking.noted(finding))
                .collect::<Vec<_>>(),
        )
    }

    /// The files that a file uses, itself or through others, and that were not put there.
    ///
    /// # Errors
    /// There is no such file.
    pub fn missing(&mut self, file: &str) -> Told {
        let notebook = self.notebook(file)?;
        let missing = notebook.missed().iter().map(|path| crate::files::name(path));
        told(&missing.collect::<Vec<_>>())
    }

    /// What a preview shows at once: of the rig that a place lies in.
    ///
    /// # Errors
    /// There is no such file.
    pub fn look_around(&mut self, file: &str, at: u32) -> Told {
        let asking = self.ask(file)?;
        told(&asking.look(Which::Around(asking.byte(at))))
    }

    /// What a preview says of the same rig once it is worked out.
    ///
    /// # Errors
    /// There is no such file.
    pub fn judge_around(&mut self, file: &str, at: u32) -> Told {
        let asking = self.ask(file)?;
        told(&asking.judge(Which::Around(asking.byte(at))))
    }

    /// The changes that lay a file out.
    ///
    /// # Errors
    /// There is no such file.
    pub fn tidy(&mut self, file: &str) -> Told {
        let asking = self.ask(file)?;
        told(&asking.changes(&snell_ide::tidied(&asking.notebook)))
    }

    /// The changes that mend all that can only mean one thing.
    ///
    /// # Errors
    /// There is no such file.
    pub fn mend(&mut self, file: &str) -> Told {
        let asking = self.ask(file)?;
        told(&asking.changes(&snell_ide::all_sure(&asking.findings())))
    }

    /// What is told within the lines of a stretch of a file.
    ///
    /// # Errors
    /// There is no such file.
    pub fn hints(&mut self, file: &str, from: u32, to: u32) -> Told {
        let asking = self.ask(file)?;
        let hints = snell_ide::hints(&asking.notebook, asking.span(from, to));
        let told_of = |hint: snell_ide::Hint| Beside {
            at: asking.units(Span::empty(hint.at)).0,
            text: hint.text,
            about: hint.about,
        };
        told(&hints.into_iter().map(told_of).collect::<Vec<_>>())
    }

    /// What every rig of a file comes to.
    ///
    /// # Errors
    /// There is no such file.
    pub fn totals(&mut self, file: &str) -> Told {
        let asking = self.ask(file)?;
        let totals = snell_ide::lenses(&asking.notebook).into_iter().map(|lens| {
            let (from, to) = asking.units(lens.place);
            Total {
                from,
                to,
                text: lens.text,
            }
        });
        told(&totals.collect::<Vec<_>>())
    }

    /// The blocks of a file, and the parts of its rigs.
    ///
    /// # Errors
    /// There is no such file.
    pub fn outline(&mut self, file: &str) -> Told {
        let asking = self.ask(file)?;
        let outline = snell_ide::outline(&asking.notebook);
        told(
            &outline
                .into_iter()
                .map(|symbol| asking.outlined(symbol))
                .collect::<Vec<_>>(),
        )
    }

    /// The place that gives the name at a place; `null` where none does.
    ///
    /// # Errors
    /// There is no such file.
    pub fn definition(&mut self, file: &str, at: u32) -> Told {
        let asking = self.ask(file)?;
        let place = snell_ide::definition(&asking.notebook, ASKED, asking.byte(at));
        told(&place.and_then(|place| stretch(&asking.notebook, place)))
    }

    /// Where the name at a place stands, in all files.
    ///
    /// # Errors
    /// There is no such file, or another one cannot be read.
    pub fn places(&mut self, file: &str, at: u32) -> Told {
        let at = self.ask(file)?.byte(at);
        let whole = self.whole(file)?;
        let places = snell_ide::places(&whole, ASKED, at).into_iter();
        told(
            &places
                .filter_map(|one| stretch(&whole, one.place))
                .collect::<Vec<_>>(),
        )
    }

    /// The name at a place that can be changed.
    ///
    /// # Errors
    /// There is no such file, or no such name; in words for people.
    pub fn changeable(&mut self, file: &str, at: u32) -> Told {
        let asking = self.ask(file)?;
        let place = snell_ide::changeable(&asking.notebook, ASKED, asking.byte(at));
        let place = place.map_err(|unnamed| unnamed.to_string())?;
        told(&stretch(&asking.notebook, place))
    }

    /// The changes that give the name at a place another one, in all files.
    ///
    /// # Errors
    /// There is no such file, another one cannot be read, or the name cannot be changed so; in words for people.
    pub fn rename(&mut self, file: &str, at: u32, new: &str) -> Told {
        let at = self.ask(file)?.byte(at);
        let whole = self.whole(file)?;
        let edits = snell_ide::renamed(&whole, ASKED, at, new).map_err(|unnamed| unnamed.to_string())?;
        let changed = edits.into_iter().filter_map(|edit| {
            let at = stretch(&whole, edit.place)?;
            Some(Changed { at, insert: edit.new })
        });
        told(&changed.collect::<Vec<_>>())
    }
}

impl Asking {
    fn noted(&self, finding: &Finding) -> Noted {
        let said = snell_ide::said(&self.notebook, finding);
        let (from, to) = self.units(said.place);
        let elsewhere = said.elsewhere.into_iter().filter_map(|(place, text)| {
            let at = stretch(&self.notebook, place)?;
            Some(Elsewhere { at, text })
        });
        Noted {
            rule: finding.code.to_string(),
            level: finding.level.word(),
            message: said.message,
            from,
            to,
            elsewhere: elsewhere.collect(),
        }
    }

    fn outlined(&self, symbol: Symbol) -> Outlined {
        let ((from, to), (name_from, name_to)) = (self.units(symbol.extent), self.units(symbol.place.span));
        let parts = symbol.parts.into_iter();
        Outlined {
            name: symbol.name,
            detail: symbol.detail,
            part: symbol.kind.is_none(),
            from,
            to,
            name_from,
            name_to,
            parts: parts.map(|part| self.outlined(part)).collect(),
        }
    }
}

/// A place by its file's name; nothing for what ships.
fn stretch(notebook: &Notebook, place: Place) -> Option<Stretch> {
    let document = notebook.document(place.text)?;
    let utf16 = Utf16::new(&document.text);
    Some(Stretch {
        file: crate::files::name(document.real.as_ref()?),
        from: utf16.unit(place.span.start),
        to: utf16.unit(place.span.end),
    })
}

#[cfg(test)]
mod tests {
    use crate::page::Page;
    use serde_json::{Value, json};

    const FLIES: &str = "fly slate\n  hook #14\n  bead 2.8 mm tungsten\n";
    const RIGS: &str = "use \"flies.rig\"\n\nrig low \"🎣 Low\"\n  water   2 ft at 2.2 ft/s over cobble\n  tippet 32 in  of 6X \
                        fluoro as upper\n  point   slate\n\nrig high from low\n  change upper to 44 in\n";

    fn page() -> Page {
        let mut page = Page::default();
        page.put("beck/flies.rig", FLIES);
        page.put("beck/rigs.rig", RIGS);
        page
    }

    /// Where a word stands as JavaScript counts: each is after the two units of the angler.
    fn unit(text: &str, word: &str) -> u32 {
        text[..text.find(word).expect("it is there")]
            .encode_utf16()
            .count() as u32
    }

    fn told(answer: Result<String, String>) -> Value {
        serde_json::from_str(&answer.expect("it is answered")).expect("it is JSON")
    }

    #[test]
    fn a_name_changes_in_every_file() {
        let mut page = page();
        let at = unit(RIGS, "slate");
        assert_eq!(
            told(page.changeable("beck/rigs.rig", at)),
            json!({"file": "beck/rigs.rig", "from": at, "to": at + 5})
        );
        let places = json!([{"file": "beck/flies.rig", "from": 4, "to": 9}, {"file": "beck/rigs.rig", "from": at, "to": at + 5}]);
        let sorted = |mut value: Value| {
            let list = value.as_array_mut().expect("it is a list");
            list.sort_by_key(|one| one["file"].to_string());
            value
        };
        assert_eq!(sorted(told(page.places("beck/rigs.rig", at))), places);
        let renamed = told(page.rename("beck/rigs.rig", at, "shale"));
        let renamed = renamed.as_array().expect("it is a list").iter();
        let mut files: Vec<_> = renamed
            .map(|one| (one["file"].clone(), one["insert"].clone()))
            .collect();
        files.sort_by_key(|one| one.0.to_string());
        assert_eq!(
            files,
            [
                (json!("beck/flies.rig"), json!("shale")),
                (json!("beck/rigs.rig"), json!("shale"))
            ]
        );
        assert_eq!(
            told(page.definition("beck/rigs.rig", at))["file"],
            "beck/flies.rig"
        );
        let why = page
            .rename("beck/rigs.rig", at, "two words")
            .expect_err("it is no name");
        assert!(why.contains("is no name"), "{why}");
        assert!(page.changeable("beck/rigs.rig", 0).is_err());
    }

    #[test]
    fn a_file_that_went_is_not_in_sight_any_more() {
        let mut page = page();
        assert_eq!(told(page.findings("beck/rigs.rig")), json!([]));
        assert_eq!(told(page.missing("beck/rigs.rig")), json!([]));
        page.remove("beck/flies.rig");
        assert_eq!(told(page.missing("beck/rigs.rig")), json!(["beck/flies.rig"]));
        let found = told(page.findings("beck/rigs.rig"));
        assert_eq!(found[0]["rule"], "use-missing", "{found}");
    }

    #[test]
    fn a_file_is_laid_out_and_mended_and_tells_what_it_comes_to() {
        let mut page = page();
        let tidied = told(page.tidy("beck/rigs.rig"));
        assert!(!tidied.as_array().expect("it is a list").is_empty());
        page.put("beck/typed.rig", "rig a\n  tippet 20 in of 6 x fluoro\n");
        assert_eq!(
            told(page.mend("beck/typed.rig")),
            json!([{"from": 25, "to": 28, "insert": "X "}])
        );
        let found = told(page.findings("beck/typed.rig"));
        assert_eq!(
            (&found[0]["rule"], &found[0]["from"]),
            (&json!("size-spaced"), &json!(24))
        );
        let hints = told(page.hints("beck/rigs.rig", 0, u32::MAX));
        assert!(hints.to_string().contains("0.127 mm"), "{hints}");
        let totals = told(page.totals("beck/rigs.rig"));
        assert_eq!(totals[0]["from"], unit(RIGS, "low"), "{totals}");
        let outline = told(page.outline("beck/rigs.rig"));
        assert_eq!(outline[0]["parts"][1]["name"], "point", "{outline}");
    }

    #[test]
    fn a_preview_is_of_the_rig_around_the_cursor() {
        let mut page = page();
        let at = unit(RIGS, "change");
        let look = told(page.look_around("beck/rigs.rig", at));
        assert_eq!(look["rig"], "high");
        assert!(look["picture"].as_str().is_some_and(|svg| svg.contains("<svg")));
        let judged = told(page.judge_around("beck/rigs.rig", at));
        assert_eq!(judged["rig"], "high");
        assert!(!judged["verdict"].as_array().expect("it is a list").is_empty());
    }
}
