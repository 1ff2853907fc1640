//! Articles: Markdown pages that show their rigs between markers, which are
//! kept true. What each marker asks for, and what is wrong with it.
//!
//! How a table or a list looks is for those who print.

mod article;
mod checksum;
mod content;
mod figure;
mod lay;
mod pairs;
mod sight;
mod slot;
mod spoken;
mod words;

pub use article::{Article, Filling};
pub use checksum::{Author, alike, checksum};
pub use content::{Content, Picture};
pub use lay::Lay;
pub use slot::Slot;
pub use spoken::instead;
pub use words::Shown;

use content::Filler;
use figure::Asked;
use pairs::{Pair, pairs};
use sight::{Named, Sight};
use snell_analysis::Document;
use snell_analysis::Notebook;
use snell_analysis::{Checked, Wanted, capped, ordered};
use snell_finding::{Code, Finding, Fix};
use snell_rig::faults::Faults;
use snell_rig::project::BlockRef;
use snell_rig::{BlockId, Evaluation, World};
use snell_text::{Place, TextId};
use snell_view::Units;
use spoken::Sayer;
use std::collections::BTreeMap;
use words::{Said, What, Wish};

/// The article in a page of a notebook; a page that is not there, and a rig file, have nothing to fill.
pub fn read(notebook: &Notebook, page: TextId) -> Article {
    let world = World::new(notebook.project());
    match notebook.document(page) {
        Some(document) if document.kind.is_article() => of(notebook, &world, document, Depth::Whole),
        _ => Article::default(),
    }
}

/// Every finding of a notebook: those of its blocks and rigs, and those of the markers in its pages.
pub fn examine(notebook: &Notebook, wanted: Wanted) -> Checked {
    let mut checked = snell_analysis::examine(notebook, wanted);
    let markers = findings(notebook);
    if !markers.is_empty() {
        checked.findings.extend(markers);
        checked.findings = capped(ordered(checked.findings));
    }
    checked
}

/// Every finding of a notebook, with mends.
pub fn check(notebook: &Notebook) -> Vec<Finding> {
    examine(notebook, Wanted::Found).findings
}

/// What is wrong with the markers of a notebook's pages.
fn findings(notebook: &Notebook) -> Vec<Finding> {
    let mut pages = notebook
        .documents()
        .iter()
        .filter(|document| document.kind.is_article())
        .peekable();
    if pages.peek().is_none() {
        return Vec::new();
    }
    let world = World::new(notebook.project());
    pages
        .flat_map(|page| of(notebook, &world, page, Depth::Findings).findings)
        .collect()
}

/// What is wrong with the markers of one page.
pub fn findings_of(notebook: &Notebook, page: TextId) -> Vec<Finding> {
    let world = World::new(notebook.project());
    let document = notebook.document(page);
    document.map_or_else(Vec::new, |page| {
        of(notebook, &world, page, Depth::Findings).findings
    })
}

/// What stands below the picture of a rig.
pub fn caption(notebook: &Notebook, world: &World<'_>, block: BlockRef<'_>, units: Units) -> String {
    let rig = snell_rig::read(world, world.project.block(block.id), &Faults::default());
    let evaluation = Evaluation::new(world, &rig);
    let sayer = Sayer {
        notebook,
        evaluation: &evaluation,
    };
    sayer.caption(units)
}

/// How much of an article is wanted.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
enum Depth {
    Findings,
    Whole,
}

fn of(notebook: &Notebook, world: &World<'_>, document: &Document, depth: Depth) -> Article {
    let page: &str = &document.text;
    let (pairs, mut findings) = pairs(page, &document.page().markers, document.id);
    let mut wishes: BTreeMap<BlockId, Vec<(Slot, Wish<'_>, Option<BlockRef<'_>>)>> = BTreeMap::new();
    let sight = (!pairs.is_empty()).then(|| Sight::of(world, document.id));
    for (pair, sight) in pairs.into_iter().zip(std::iter::repeat(sight.as_ref())) {
        let wish = match words::read(page, pair.open.words, document.id) {
            Ok(wish) => wish,
            Err(finding) => {
                findings.push(*finding);
                continue;
            }
        };
        let lay = lay::lay(document, &pair, &wish, &mut findings);
        let named = sight.map(|sight| sight.find(wish.rig.text));
        match (named, lay) {
            (Some(Named::Rig(block)), Some(lay)) => {
                let other = match other(&wish, sight, document.id) {
                    Ok(other) => other,
                    Err(finding) => {
                        findings.push(*finding);
                        continue;
                    }
                };
                let slot = slot(page, &pair, lay);
                if depth == Depth::Findings {
                    findings.extend(slot.judged(page, document.id));
                }
                wishes.entry(block.id).or_default().push((slot, wish, other));
            }
            (Some(Named::Rig(_)) | None, _) => {}
            (Some(named), _) => findings.push(no_rig(&named, wish.rig, document.id)),
        }
    }
    let mut article = Article {
        places: Vec::new(),
        findings,
    };
    for (block, wishes) in wishes {
        of_rig(notebook, world, document, block, wishes, depth, &mut article);
    }
    article.places.sort_by_cached_key(|place| place.slot.open);
    article::one_picture_a_file(&mut article, document.id);
    article
}

/// The rig that another is held against, where the marker names one.
fn other<'p>(
    wish: &Wish<'_>,
    sight: Option<&Sight<'p>>,
    text: TextId,
) -> Result<Option<BlockRef<'p>>, Box<Finding>> {
    let What::Block(words::Block { with: Some(with), .. }) = wish.what else {
        return Ok(None);
    };
    match sight.map(|sight| sight.find(with.text)) {
        None => Ok(None),
        Some(Named::Rig(block)) => Ok(Some(block)),
        Some(named) => Err(Box::new(no_rig(&named, with, text))),
    }
}

fn slot(page: &str, pair: &Pair, lay: Lay) -> Slot {
    let checksum = pair.checksum.map(|checksum| checksum.of(page));
    Slot {
        open: pair.open.comment,
        inside: pair.inside(),
        around: pair.around(),
        end: pair.end.words,
        author: Author::of(pair.inside().of(page), checksum),
        lay,
    }
}

/// All that is asked of one rig, which is worked out once.
fn of_rig<'p>(
    notebook: &Notebook,
    world: &World<'p>,
    document: &Document,
    block: BlockId,
    wishes: Vec<(Slot, Wish<'_>, Option<BlockRef<'p>>)>,
    depth: Depth,
    article: &mut Article,
) {
    let block = world.project.block(block);
    let rig = snell_rig::read(world, block, &Faults::default());
    if rig.broken {
        // Its own faults are told at its lines; half a rig is not put into a page.
        return;
    }
    let evaluation = Evaluation::new(world, &rig);
    let sayer = Sayer {
        notebook,
        evaluation: &evaluation,
    };
    for (slot, wish, other) in wishes {
        let filler = Filler {
            notebook,
            document,
            block,
            other,
            evaluation: &evaluation,
        };
        let content = match wish.what {
            What::Figure { measure, part, told } => {
                let asked = Asked {
                    text: document.id,
                    measure,
                    part,
                    told,
                };
                asked.of(&sayer).map(Content::Figure)
            }
            What::Block(wanted) => {
                let file = match filler.file(wanted.shown, wanted.into) {
                    Ok(file) => file,
                    Err(finding) => {
                        article.findings.push(*finding);
                        continue;
                    }
                };
                if depth == Depth::Findings {
                    continue;
                }
                filler.content(&wanted, file, wish.words)
            }
        };
        match content {
            Ok(content) => article.places.push(Filling {
                asked: wish.words.of(&document.text).to_owned(),
                slot,
                content,
            }),
            Err(finding) => article.findings.extend(finding.map(|finding| *finding)),
        }
    }
}

/// No rig, or two, of the name that a marker names.
fn no_rig(named: &Named<'_>, said: Said<'_>, text: TextId) -> Finding {
    let place = Place::new(text, said.span);
    let name = said.text;
    match named {
        Named::Twice(first, second) => {
            let message = format!("two used files define the rig `{name}`");
            Finding::fault(Code::MarkerRig, place, message)
                .label(first.name_place(), "one")
                .label(second.name_place(), "the other")
                .help("use one of the two files, or give one of the rigs another name")
        }
        Named::Missing(Some(near)) => {
            let message = format!("there is no rig `{name}` in sight of this page");
            Finding::fault(Code::MarkerRig, place, message)
                .here(format!("did you mean `{near}`?"))
                .fix(Fix::offered(format!("write `{near}`"), place, near.as_str()))
        }
        Named::Rig(_) | Named::Missing(None) => {
            let message = format!("there is no rig `{name}` in sight of this page");
            Finding::fault(Code::MarkerRig, place, message).help(
                "write it in a `rig` fence here, or name its file: `<!-- rig: use \"rigs.rig\" -->`, alone on a line",
            )
        }
    }
}
