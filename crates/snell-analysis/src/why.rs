//! What a name means: a unit, a measure, a shipped block, a keyword, a fault.

use crate::notebook::Notebook;
use crate::reckoned;
use snell_finding::Code;
use snell_rig::World;
use snell_rig::keywords::{self, Often};
use snell_rig::measure::MEASURES;
use snell_rig::project::BlockRef;
use snell_syntax::BlockKind;
use std::path::PathBuf;

/// The words that explain a name.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Explained {
    /// What kind of thing it is: `unit`, `measure of a rig`, `knot`.
    pub kind: String,
    /// Its name.
    pub name: String,
    /// The file that it stands in; none for what belongs to the language or ships.
    pub file: Option<PathBuf>,
    /// What it means, in one or a few sentences.
    pub about: String,
    /// Facts, each with a word for it.
    pub facts: Vec<(String, String)>,
}

impl Explained {
    fn new(kind: impl Into<String>, name: &str, about: impl Into<String>) -> Self {
        Self {
            kind: kind.into(),
            name: name.to_owned(),
            file: None,
            about: about.into(),
            facts: Vec::new(),
        }
    }

    fn fact(mut self, word: &str, fact: impl Into<String>) -> Self {
        self.facts.push((word.to_owned(), fact.into()));
        self
    }
}

/// All that a name means to the language and what ships with it.
///
/// # Errors
/// It means nothing; the nearest name, if one is near.
pub fn explain(name: &str) -> Result<Vec<Explained>, Option<String>> {
    explain_in(&Notebook::default(), name)
}

/// All that a name means, also to the files of a notebook.
///
/// # Errors
/// It means nothing; the nearest name, if one is near.
pub fn explain_in(notebook: &Notebook, name: &str) -> Result<Vec<Explained>, Option<String>> {
    let folded = name.to_lowercase();
    let world = World::new(notebook.project());
    let mut found: Vec<Explained> = Vec::new();
    found.extend(unit(name));
    found.extend(
        MEASURES
            .iter()
            .filter(|measure| measure.name == folded)
            .map(measure),
    );
    found.extend(
        snell_rig::measure::formerly(&folded).map(|now| measure(now).fact("called before", &*folded)),
    );
    found.extend(blocks(notebook, &world, &folded));
    found.extend(BlockKind::of(&folded).map(kind));
    found.extend(keys(&folded));
    found.extend(words(&folded));
    found.extend(Code::named(&folded).map(|code| Explained::new("fault", code.name(), code.about())));
    let page = reckoned::page(&folded);
    found.extend(page.map(|(name, page)| Explained::new("how it is worked out", name, prose(page))));
    if found.is_empty() {
        Err(nearest(&world, &folded))
    } else {
        Ok(found)
    }
}

pub fn unit(name: &str) -> Option<Explained> {
    if let Some(size) = name
        .strip_suffix(['x', 'X'])
        .and_then(|digits| digits.parse::<f64>().ok())
    {
        let metres = snell_units::diameter_of_x(size)?;
        let diameter = snell_units::Quantity::new(metres, snell_units::Dimension::LENGTH);
        let about = "A tippet size. Its diameter is 0.011 in less a thousandth of an inch for each X; halves count. From 9X on labels differ.";
        let inch = snell_units::resolve("in").ok()?;
        let inches = snell_units::write_as(diameter, &inch);
        return Some(
            Explained::new("size", name, about)
                .fact(
                    "diameter",
                    format!(
                        "{} ({inches})",
                        snell_units::write(diameter, snell_units::System::Metric)
                    ),
                )
                .fact("source", "common practice, no source"),
        );
    }
    let known = snell_units::resolve(name).ok()?;
    let one = known.quantity(1.0);
    let explained = match known.unit {
        Some(unit) => {
            let spellings = unit.words.join(", ");
            let explained = Explained::new("unit", unit.name, unit.about);
            let explained = if spellings.is_empty() {
                explained
            } else {
                explained.fact("also written", spellings)
            };
            explained.fact("source", unit.source)
        }
        None => Explained::new(
            "unit",
            &known.plain,
            format!("A unit of {}.", known.dimension.name()),
        ),
    };
    let si = format!(
        "{} {}",
        snell_units::write_number(one.si),
        known.dimension.si_unit()
    );
    Some(
        explained
            .fact("measures", known.dimension.name())
            .fact("one is", si.trim_end()),
    )
}

pub fn measure(measure: &'static snell_rig::measure::Measure) -> Explained {
    let kind = format!("measure of a {}", measure.of.word());
    let told = match measure.get {
        snell_rig::measure::Get::Value(_) => measure.dimension.name().into_owned(),
        snell_rig::measure::Get::Words(_) => "words, asked with `is`".to_owned(),
    };
    Explained::new(kind, measure.name, measure.about).fact("told in", told)
}

/// The blocks of a name, shipped ones and the notebook's own, with their lines as they are written.
fn blocks<'p>(notebook: &Notebook, world: &World<'p>, name: &str) -> Vec<Explained> {
    let all = world.project.files().flat_map(|file| world.project.blocks(file));
    let named = all.filter(|block| {
        block
            .head()
            .is_some_and(|head| *head.name.folded == *name && head.kind != BlockKind::Rig)
    });
    named.map(|block| explained(notebook, world, block)).collect()
}

pub fn explained<'p>(notebook: &Notebook, world: &World<'p>, block: BlockRef<'p>) -> Explained {
    let word = block.head().map_or("", |head| head.kind.word());
    let place = block.name_place();
    let file = notebook
        .document(place.text)
        .map(|document| document.path.clone());
    let kind = match file {
        Some(_) => word.to_owned(),
        None => format!("{word} that ships"),
    };
    let prose = snell_rules::page(place.text)
        .map(|(_, page)| prose(page))
        .filter(|prose| !prose.is_empty());
    let about = prose.unwrap_or_else(|| block.title().unwrap_or_default().to_owned());
    let mut explained = Explained {
        file,
        ..Explained::new(kind, world.name(block.id), about)
    };
    let bases = snell_rig::blocks::lineage(&world.names, block).unwrap_or_else(|_| vec![block]);
    if let [.., base, _] = bases.as_slice() {
        explained = explained.fact("from", world.name(base.id));
    }
    for line in snell_rig::blocks::merged(&bases, &snell_rig::faults::Faults::default()) {
        let (key, _) = snell_rig::blocks::line_key(line);
        explained = explained.fact(key, line.behind_key().trim_matches('"'));
    }
    explained
}

/// What a page says before its first fence, without its heading; a rulebook without a page says nothing.
fn prose(page: &str) -> String {
    if !page.starts_with('#') {
        return String::new();
    }
    let lines = page.lines().take_while(|line| !line.starts_with("```"));
    let lines: Vec<&str> = lines
        .skip_while(|line| line.starts_with('#') || line.is_empty())
        .collect();
    let paragraphs: Vec<String> = lines
        .split(|line| line.is_empty())
        .map(|lines| lines.join(" "))
        .collect();
    paragraphs.join("\n\n").trim().to_owned()
}

/// What a keyword means in each kind of block.
fn kind(kind: BlockKind) -> Explained {
    let needed = keywords::rows(kind)
        .iter()
        .filter(|row| row.often == Often::Needed);
    let rows: Vec<String> = needed.map(|row| format!("`{}`", row.key)).collect();
    let own = keywords::OWN_FORMS
        .iter()
        .filter(|form| form.within.contains(&kind));
    let all: Vec<&str> = keywords::rows(kind)
        .iter()
        .map(|row| row.key)
        .chain(own.map(|form| form.key))
        .collect();
    let explained = Explained::new("block", kind.word(), keywords::about(kind))
        .fact("opens", format!("{} NAME [from NAME] [\"TITLE\"]", kind.word()));
    let explained = match rows.is_empty() {
        true => explained,
        false => explained.fact("needs", rows.join(", ")),
    };
    explained.fact("lines", all.join(", "))
}

fn keys(name: &str) -> Vec<Explained> {
    let mut found = Vec::new();
    for kind in BlockKind::ALL {
        if let Some(row) = keywords::row(kind, name) {
            let explained = Explained::new(format!("line of {}", kind.one()), row.key, row.about);
            found.push(explained.fact("reads", row.shape()));
        }
    }
    let own = keywords::OWN_FORMS.iter().filter(|form| form.key == name);
    found.extend(own.map(|form| {
        let kinds: Vec<&str> = form.within.iter().map(|kind| kind.one()).collect();
        Explained::new(format!("line of {}", kinds.join(" or ")), form.key, form.about)
            .fact("reads", form.shape)
    }));
    found
}

fn words(name: &str) -> Vec<Explained> {
    let tables = [
        ("method", keywords::Method::WORDS),
        ("cast", keywords::Cast::WORDS),
    ];
    let found = tables
        .into_iter()
        .flat_map(|(kind, words)| words.iter().map(move |named| (kind, named)));
    let named = found.filter(|(_, named)| named.word == name);
    named
        .map(|(kind, named)| Explained::new(kind, named.word, named.about))
        .collect()
}

fn nearest(world: &World<'_>, name: &str) -> Option<String> {
    let files: Vec<_> = world.project.files().collect();
    let seen = |kind| files.iter().flat_map(move |file| world.visible(*file, kind));
    let mut known: Vec<String> = BlockKind::ALL
        .into_iter()
        .filter(|kind| *kind != BlockKind::Rig)
        .flat_map(seen)
        .map(|name| name.to_string())
        .collect();
    known.extend(MEASURES.iter().map(|measure| measure.name.to_owned()));
    known.extend(snell_units::UNITS.iter().map(|unit| unit.name.to_owned()));
    known.extend(Code::ALL.iter().map(|code| code.name().to_owned()));
    for kind in BlockKind::ALL {
        known.extend(keywords::rows(kind).iter().map(|row| row.key.to_owned()));
    }
    snell_units::nearest(name, known.iter().map(String::as_str)).map(str::to_owned)
}
