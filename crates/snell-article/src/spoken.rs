//! What can be said of a rig and its parts in words: titles, what a piece is made
//! of, which fly is where, the verdict, a caption.

use snell_analysis::Notebook;
use snell_picture::Medium;
use snell_rig::Evaluation;
use snell_rig::measure::{self, Kind, Thing};
use snell_rig::thing::FlyId;
use snell_view::Units;

/// A word of a whole rig.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum RigWord {
    /// Its title, or its name where it has none.
    Title,
    /// Its rod.
    Rod,
    /// Its water.
    Water,
    /// Whether it fishes there, in a sentence.
    Verdict,
    /// What stands below its picture.
    Caption,
    /// What its picture shows, for those who do not see it.
    Alt,
}

const OF_RIG: [(&str, RigWord); 6] = [
    ("title", RigWord::Title),
    ("rod", RigWord::Rod),
    ("water", RigWord::Water),
    ("verdict", RigWord::Verdict),
    ("caption", RigWord::Caption),
    ("alt", RigWord::Alt),
];

impl RigWord {
    pub fn named(name: &str) -> Option<Self> {
        OF_RIG
            .into_iter()
            .find_map(|(known, word)| (known == name).then_some(word))
    }

    pub fn names() -> Vec<&'static str> {
        OF_RIG.map(|(name, _)| name).to_vec()
    }
}

/// A word of a part.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(super) enum PartWord {
    /// What it is made of, as it is written: `5X fluoro`.
    Stuff,
    /// The fly that is tied there.
    Fly,
}

const OF_PART: [(&str, PartWord); 2] = [("stuff", PartWord::Stuff), ("fly", PartWord::Fly)];

impl PartWord {
    pub fn named(name: &str) -> Option<Self> {
        OF_PART
            .into_iter()
            .find_map(|(known, word)| (known == name).then_some(word))
    }

    pub fn names() -> Vec<&'static str> {
        OF_PART.map(|(name, _)| name).to_vec()
    }
}

/// Says what is asked of one rig.
pub(super) struct Sayer<'a, 'w, 'p> {
    pub notebook: &'a Notebook,
    pub evaluation: &'a Evaluation<'w, 'p>,
}

impl Sayer<'_, '_, '_> {
    /// A word of the rig; nothing where the rig leaves it unsaid.
    pub fn of_rig(&self, word: RigWord, units: Units) -> Option<String> {
        let rig = self.evaluation.rig;
        let setting = |key| snell_view::settings_of(self.notebook, self.evaluation).swap_remove(key);
        match word {
            RigWord::Title => Some(rig.title().unwrap_or(&rig.name).to_owned()),
            RigWord::Rod => setting("rod"),
            RigWord::Water => setting("water"),
            RigWord::Verdict => {
                let world = self.evaluation.world;
                let answer = snell_view::answer_of(world, rig.block, units);
                answer.into_iter().next()
            }
            RigWord::Caption => Some(self.caption(units)),
            RigWord::Alt => {
                let scene = snell_view::scene_of(self.evaluation, units, Medium::Page)?;
                Some(instead(&scene))
            }
        }
    }

    /// A word of the first of some things that has it.
    pub fn of_part(&self, word: PartWord, things: &[Thing]) -> Option<String> {
        let chain = &self.evaluation.rig.chain;
        let said = |thing: &Thing| match (word, *thing) {
            (PartWord::Stuff, Thing::Section(id)) => Some(chain.section(id).part.written_stuff()),
            (PartWord::Stuff, Thing::Dropper(id)) => Some(chain.dropper(id).part.written_stuff()),
            (PartWord::Stuff | PartWord::Fly, Thing::Fly(id)) => Some(self.fly(id)),
            (PartWord::Fly, Thing::Dropper(id)) => Some(self.fly(chain.dropper(id).fly)),
            (PartWord::Fly, Thing::Section(_))
            | (_, Thing::Rig | Thing::Join(_) | Thing::Gap(_) | Thing::Shot(_) | Thing::Rod | Thing::Water) => {
                None
            }
        };
        things.iter().find_map(said).filter(|said| !said.is_empty())
    }

    fn fly(&self, id: FlyId) -> String {
        let tied = self.evaluation.rig.chain.fly(id).tied;
        let title = tied
            .block
            .and_then(|id| self.evaluation.world.project.block(id).title());
        title.map_or_else(|| tied.name.clone(), str::to_owned)
    }

    /// `Harrow Beck, low and clear: 15 ft 10 in of leader, 52 in of it tippet; slate spider, bracken nymph at the point`
    pub fn caption(&self, units: Units) -> String {
        let rig = self.evaluation.rig;
        let figure = |name: &str| {
            let measure = measure::of(Kind::Rig, name)?;
            let value = self.evaluation.measure(measure, Thing::Rig).ok()?;
            let written = snell_view::written(self.evaluation, measure, Thing::Rig, &value, units);
            Some(written.told())
        };
        let mut caption = rig.title().unwrap_or(&rig.name).to_owned();
        let lengths = [
            figure("total").map(|total| format!("{total} of leader")),
            figure("tippet").map(|tippet| format!("{tippet} of it tippet")),
        ];
        let lengths: Vec<String> = lengths.into_iter().flatten().collect();
        if !lengths.is_empty() {
            caption.push_str(&format!(": {}", lengths.join(", ")));
        }
        let point = rig.chain.point();
        let flies = rig.chain.flies().map(|(id, _)| match point == Some(id) {
            true => format!("{} at the point", self.fly(id)),
            false => self.fly(id),
        });
        let flies: Vec<String> = flies.collect();
        if !flies.is_empty() {
            caption.push_str(&format!("; {}", flies.join(", ")));
        }
        caption
    }
}

/// What a picture shows, for those who do not see it.
pub fn instead(scene: &snell_picture::Scene) -> String {
    match scene.about.is_empty() {
        true => scene.title.clone(),
        false => format!("{}. {}", scene.title, scene.about),
    }
}
