//! A rig's card for the pocket: for each depth and speed the lightest fly at
//! hand that fishes it, the tippet that it wants under water, and its sink.
//!
//! How a card looks is for those who print.

mod as_tied;
mod asked;
mod at_hand;
mod cell;
mod picture;
mod shown;
mod solve;
mod tell;
mod words;

pub use as_tied::waters_of;
pub use asked::{Asked, MOST_LINES};
pub use cell::Wading;
pub use shown::{ShownAnswer, ShownCard, ShownCell, ShownFished, ShownFly, Why};
pub use words::{About, Remark};

use crate::names::file_of;
use crate::need::{Need, ShownAssumed, needs_of};
use crate::shower::Shower;
use crate::shown::Row;
use crate::written::{Estimates, Units};
use at_hand::AtHand;
use cell::{Asks, Open};
use indexmap::IndexMap;
use snell_analysis::Notebook;
use snell_analysis::rigs;
use snell_finding::Limit;
use snell_rig::evaluation::MissingWords;
use snell_rig::faults::Faults;
use snell_rig::project::BlockRef;
use snell_rig::{BlockId, Evaluation, World};
use snell_rules::Books;
use solve::{Answer, Cell};
use tell::Teller;

/// How many flies of a box are tried in each depth and speed.
const MOST_FLIES: usize = Limit::CardFlies.count();

/// The cards of all rigs that `wanted` picks by name and file. `told` hears how many cells of how many are done.
///
/// # Errors
/// What was wrong with what stands in [`Asked`].
pub fn cards(
    notebook: &Notebook,
    units: Units,
    asked: &Asked,
    told: &(dyn Fn(usize, usize) + Sync),
    wanted: impl Fn(&str, &str) -> bool,
) -> Result<Vec<ShownCard>, String> {
    let beside = asked::beside(notebook, asked);
    let world = World::new(&beside.project);
    if let Some(wrong) = beside.wrong(&world) {
        return Err(wrong);
    }
    let books = Books::new(&world);
    let own = rigs(&world)
        .into_iter()
        .filter(|block| block.source.file.text != beside.text);
    let picked: Vec<BlockRef<'_>> = own
        .filter(|block| wanted(&snell_rig::rig::name(*block), &file_of(notebook, *block)))
        .collect();
    let mut cards = Vec::new();
    for (index, block) in picked.iter().enumerate() {
        let whole = |done, all| told(index * all + done, picked.len() * all);
        let desk = Desk {
            books: &books,
            units,
            told: &whole,
        };
        let file = file_of(notebook, *block);
        cards.push(desk.card(*block, file, asked, &beside)?);
    }
    Ok(cards)
}

/// The card of one rig in waters of the usual depths and speeds; nothing where there is none to be made.
pub fn card_of(notebook: &Notebook, block: BlockId, units: Units) -> Option<ShownCard> {
    let asked = Asked::default();
    let beside = asked::beside(notebook, &asked);
    let world = World::new(&beside.project);
    let desk = Desk {
        books: &Books::new(&world),
        units,
        told: &|_, _| {},
    };
    let block = world.project.block(block);
    desk.card(block, file_of(notebook, block), &asked, &beside).ok()
}

/// Where cards are made.
struct Desk<'d, 'w, 'p> {
    books: &'d Books<'w, 'p>,
    units: Units,
    told: &'d (dyn Fn(usize, usize) + Sync),
}

impl<'p> Desk<'_, '_, 'p> {
    fn card(
        &self,
        block: BlockRef<'p>,
        file: String,
        asked: &Asked,
        beside: &asked::Beside,
    ) -> Result<ShownCard, String> {
        let world = self.books.world();
        let rig = snell_rig::read(world, block, &Faults::default());
        let evaluation = Evaluation::new(world, &rig);
        let teller = Teller::new(&evaluation, self.units);
        let grid = beside.grid(world, asked, teller.system)?;
        let boxed = if asked.beads {
            Vec::new()
        } else {
            at_hand::of_box(world, &rig)
        };
        let beads = boxed.is_empty();
        let at_hand = if beads {
            at_hand::of_beads(world, &rig)
        } else {
            at_hand::only(boxed, &asked.flies)?
        };
        // What was named is tried whatever it is.
        let (at_hand, left_out) = match asked.flies.is_empty() && !beads {
            true => at_hand::of_method(at_hand, &rig),
            false => (at_hand, None),
        };
        if at_hand.len() > MOST_FLIES {
            let seen = at_hand.len();
            return Err(format!(
                "a card tries {MOST_FLIES} flies at most, and {seen} are in sight: name those that you carry"
            ));
        }
        let own = rig.settings.water.as_ref().map(|water| &water.value);
        let (water, run_assumed) = asked::water(own, beside.shared(world), teller.system);
        let open = Open {
            world,
            block,
            water,
            cast: asked.cast,
        };
        let corner = grid.depths.first().zip(grid.speeds.first());
        let lightest = |at| weighed(&open, at_hand, at);
        let (flies, lacks) = corner.map_or_else(Default::default, lightest);
        let asks = Asks::of(self.books, &rig);
        let all = grid.depths.len() * grid.speeds.len();
        let cells = match (&asks, rig.broken || flies.is_empty()) {
            (Some(asks), false) => {
                let told = |done| (self.told)(done, all);
                solve::cells(&open, asks, &flies, (&grid.depths, &grid.speeds), &told)
            }
            _ => Vec::new(),
        };
        let needs = needs(&rig, &cells, &lacks);
        let assumed = method_assumed(&rig)
            .into_iter()
            .chain(run_assumed)
            .chain(assumed(&open, &flies, &cells, &grid));
        Ok(ShownCard {
            name: rig.name.clone(),
            title: rig.title().map(str::to_owned),
            file,
            inputs: teller.inputs(&open),
            limits: asks
                .as_ref()
                .map_or_else(IndexMap::new, |asks| teller.limits(&open, asks, corner)),
            beads,
            flies: corner.map_or_else(Vec::new, |at| teller.flies(&open, &flies, at)),
            depths: grid.depths.iter().map(|depth| teller.written(depth)).collect(),
            speeds: grid.speeds.iter().map(|speed| teller.written(speed)).collect(),
            cells: match needs.is_empty() {
                true => teller.cells(&cells, &flies, asks.as_ref()),
                false => Vec::new(),
            },
            assumed: assumed.collect(),
            rig: rows(&evaluation, self.units),
            left_out,
            day: None,
            needs,
            system: teller.system,
        })
    }
}

/// The rig line by line.
fn rows(evaluation: &Evaluation<'_, '_>, units: Units) -> Vec<Row> {
    crate::rows::rows(&Shower::new(evaluation, units, Estimates::Between))
}

/// Whose rules are asked, where the rig is not fished by their method.
fn method_assumed(rig: &snell_rig::rig::Rig<'_>) -> Option<ShownAssumed> {
    let own = rig.settings.method.as_ref().map(|method| method.value);
    (own != Some(cell::METHOD)).then(|| ShownAssumed {
        what: "whose rules are asked".to_owned(),
        value: format!("those of the method {}", cell::METHOD.word()),
        why: own.map_or_else(
            || "the rig says no method".to_owned(),
            |own| format!("those of {} ask nothing of a drift", own.word()),
        ),
        knot: None,
    })
}

/// The flies whose mass can be told, the lightest first, and what is missing of the others.
fn weighed<'p>(
    open: &Open<'_, 'p>,
    flies: Vec<AtHand<'p>>,
    at: cell::At<'_>,
) -> (Vec<AtHand<'p>>, Vec<Vec<Need>>) {
    let mut kept: Vec<(f64, AtHand<'p>)> = Vec::new();
    let mut lacks = Vec::new();
    for fly in flies {
        let rig = open.rigged(Some(&fly), at);
        let evaluation = Evaluation::new(open.world, &rig);
        match tell::of_point(&evaluation, "mass") {
            Ok((mass, _)) => kept.push((mass.si(), fly)),
            Err(lack) => lacks.push(needs_of(&evaluation, &lack)),
        }
    }
    // One that weighs the same comes by its name, so that a card never depends on chance.
    kept.sort_by(|(mass, fly), (other_mass, other)| {
        mass.total_cmp(other_mass).then_with(|| fly.name.cmp(&other.name))
    });
    (kept.into_iter().map(|(_, fly)| fly).collect(), lacks)
}

/// What is missing where nothing can be told of any cell.
fn needs(rig: &snell_rig::rig::Rig<'_>, cells: &[Vec<Cell>], lacks: &[Vec<Need>]) -> Vec<String> {
    let told = |needs: &[Need]| needs.iter().map(Need::to_string).collect();
    if rig.broken {
        return told(&[Need::Mended]);
    }
    let mut all = cells.iter().flatten();
    if cells.is_empty() {
        let sinking = || told(&[Need::Missing(MissingWords::plain("a point fly that sinks"))]);
        return lacks.first().map_or_else(sinking, |lack| told(lack));
    }
    match all.next().map(|cell| &cell.answer) {
        Some(Answer::Nowhere(needs)) if all.all(|cell| matches!(cell.answer, Answer::Nowhere(_))) => {
            told(needs)
        }
        _ => Vec::new(),
    }
}

/// What the figures assume: of the water once, and of each fly that stands in a cell.
fn assumed<'p>(
    open: &Open<'_, 'p>,
    flies: &[AtHand<'p>],
    cells: &[Vec<Cell>],
    grid: &asked::Grid,
) -> Vec<ShownAssumed> {
    let mut all: Vec<ShownAssumed> = Vec::new();
    for (index, fly) in flies.iter().enumerate() {
        let stands = |cell: &Cell| matches!(&cell.answer, Answer::Fly(fly, _) if *fly == index);
        let found = cells
            .iter()
            .enumerate()
            .rev()
            .find_map(|(row, cells)| Some((row, cells.iter().position(stands)?)));
        let Some((row, column)) = found else { continue };
        let rig = open.rigged(Some(fly), (&grid.depths[row], &grid.speeds[column]));
        let evaluation = Evaluation::new(open.world, &rig);
        // What they come to is told in the cells; asking makes them say what they stand on.
        let _ = cell::of_rig(&evaluation, "sink-time");
        for one in ShownAssumed::all(&evaluation) {
            if !all.iter().any(|other| other.what == one.what) {
                all.push(one);
            }
        }
    }
    all
}
