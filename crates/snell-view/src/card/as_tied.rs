//! Where a rig fishes as it is tied: what the rules that decide it say of each usual depth and speed. It is the small map
//! on a rig's sheet.

use super::asked::{Grid, usual_grid, water};
use super::cell::{Asks, At, Open, Wading};
use super::picture::{sign, told_in};
use super::shown::Why;
use crate::cautions::WaterShown;
use crate::verdict::fishing;
use crate::written::{Units, Written};
use snell_analysis::Notebook;
use snell_picture::Scene;
use snell_picture::pocket::{self, NoteHead, Paper, Pocket, PocketCell, PocketNote, Sign};
use snell_rig::faults::Faults;
use snell_rig::keywords::SpeedOf;
use snell_rig::measure;
use snell_rig::rig::Stated;
use snell_rig::value::Value;
use snell_rig::{BlockId, Evaluation, World};
use snell_rules::{Against, Books, Deciding, Verdict};

/// What stands where it fishes.
const FISHES: &str = "fishes";

/// One water.
struct Fishing {
    /// What stands against it; nothing where it fishes.
    against: Option<Why>,
    wading: Wading,
    /// Whether the rig's own water is nearest to it.
    own: bool,
}

/// Where a rig fishes as it is tied, in the usual depths and speeds of its units, over its own bed where its water is
/// shown; nothing where no rule decides it, or where it cannot be told.
pub fn waters_of(notebook: &Notebook, block: BlockId, units: Units, shown: WaterShown) -> Option<Scene> {
    let world = World::new(notebook.project());
    let books = Books::new(&world);
    let block = world.project.block(block);
    let rig = snell_rig::read(&world, block, &Faults::default());
    let evaluation = Evaluation::new(&world, &rig);
    let deciding = fishing(&books, &evaluation);
    if rig.broken || matches!(deciding.verdict(&evaluation), Verdict::Unasked) {
        return None;
    }
    let system = units.shown(evaluation.system());
    let own = rig.settings.water.as_ref().map(|water| &water.value);
    let own = own.filter(|_| shown == WaterShown::Own);
    let (water, _) = water(own, None, system);
    let open = Open {
        world: &world,
        block,
        water,
        cast: None,
    };
    let asks = Asks::of(&books, &rig)?;
    let grid = usual_grid(system);
    let here = own.and_then(|_| nearest(&evaluation, &grid));
    let rows = grid.depths.iter().enumerate().map(|(row, depth)| {
        let cells = grid.speeds.iter().enumerate().map(|(column, speed)| {
            let at = (depth, speed);
            Some(Fishing {
                against: against(&open, &deciding, at)?,
                wading: open.wading(&asks, at),
                own: here == Some((row, column)),
            })
        });
        cells.collect()
    });
    let cells: Option<Vec<Vec<Fishing>>> = rows.collect();
    let written = |values: &[Value]| -> Vec<Written> {
        let one = |value| Written::of(value, units, &evaluation);
        values.iter().map(one).collect()
    };
    scene(&written(&grid.depths), &written(&grid.speeds), &cells?)
}

/// What stands against the rig as it is tied in a water, if anything does; nothing where that cannot be told.
fn against<'p>(open: &Open<'_, 'p>, deciding: &Deciding<'p>, (depth, speed): At<'_>) -> Option<Option<Why>> {
    let mut rig = snell_rig::read(open.world, open.block, &Faults::default());
    let mut water = open.water.clone();
    water.depth = Ok(depth.clone());
    water.speed = (Ok(speed.clone()), SpeedOf::Surface);
    rig.settings.water = Some(Stated {
        value: water,
        place: rig.place(),
        block: None,
    });
    let evaluation = Evaluation::new(open.world, &rig);
    match deciding.first(&evaluation).ok()? {
        None => Some(None),
        Some(Against::Water(_)) => Some(Some(Why::no_drift())),
        Some(Against::Rule(index)) => Some(Some(Why::rule(deciding.rules().get(index)))),
    }
}

/// The row and the column of the water that the rig's own is nearest to; nothing where that lies beyond them.
fn nearest(evaluation: &Evaluation<'_, '_>, grid: &Grid) -> Option<(usize, usize)> {
    let stream = measure::stream(evaluation).ok()?;
    let row = nearest_of(&grid.depths, stream.depth().value)?;
    let column = nearest_of(&grid.speeds, stream.profile.surface().value)?;
    Some((row, column))
}

/// The value that is nearest, where it is no further off than half a step.
fn nearest_of(values: &[Value], si: f64) -> Option<usize> {
    let [first, second, ..] = values else { return None };
    let half = (second.si() - first.si()) / 2.0;
    values.iter().position(|value| (value.si() - si).abs() <= half)
}

fn scene(depths: &[Written], speeds: &[Written], cells: &[Vec<Fishing>]) -> Option<Scene> {
    let about = about(depths, speeds, cells);
    let (speed_in, speeds) = told_in("speed of the surface", speeds);
    let (depth_in, depths) = told_in("depth", depths);
    let all = || cells.iter().flatten();
    let mut whys: Vec<&Why> = all().filter_map(|cell| cell.against.as_ref()).collect();
    whys.sort_unstable();
    whys.dedup();
    let marks = [
        (Sign::Own, "the water of this sheet", all().any(|cell| cell.own)),
        (
            Sign::Hard,
            "hard water to stand in",
            all().any(|cell| cell.wading == Wading::Hard),
        ),
        (
            Sign::KeepOut,
            "keep out, and fish it from the bank",
            all().any(|cell| cell.wading == Wading::KeepOut),
        ),
    ];
    let marked = marks
        .into_iter()
        .filter(|(_, _, stands)| *stands)
        .map(|(sign, text, _)| PocketNote {
            head: NoteHead::Sign(sign),
            text: text.to_owned(),
        });
    let meant = whys.into_iter().map(|why| PocketNote {
        head: NoteHead::Word(why.word.clone()),
        text: why.means.trim_end_matches('.').to_owned(),
    });
    pocket::scene(&Pocket {
        paper: Paper::Column,
        name: "Where it fishes as it is tied".to_owned(),
        title: None,
        about,
        across: speed_in,
        down: depth_in,
        speeds,
        rows: depths
            .into_iter()
            .zip(cells.iter().map(|row| row.iter().map(cell).collect()))
            .collect(),
        rig: Vec::new(),
        notes: marked.chain(meant).collect(),
    })
}

fn cell(fishing: &Fishing) -> PocketCell {
    let own = fishing.own.then_some(Sign::Own);
    PocketCell {
        answer: fishing
            .against
            .as_ref()
            .map_or(FISHES, |why| &why.word)
            .to_owned(),
        fished: fishing.against.is_none(),
        lines: Vec::new(),
        signs: own.into_iter().chain(sign(fishing.wading)).collect(),
    }
}

/// The whole map in words, for those who do not see it.
fn about(depths: &[Written], speeds: &[Written], cells: &[Vec<Fishing>]) -> String {
    let row = |(depth, cells): (&Written, &Vec<Fishing>)| {
        let cells = speeds.iter().zip(cells).map(|(speed, fishing)| {
            let words = cell(fishing).answer;
            let own = if fishing.own {
                ", the water of this sheet"
            } else {
                ""
            };
            format!("at {} {words}{own}", speed.text)
        });
        format!("{} deep: {}", depth.text, cells.collect::<Vec<_>>().join("; "))
    };
    let rows: Vec<String> = depths.iter().zip(cells).map(row).collect();
    format!("An estimate. {}.", rows.join(". "))
}
