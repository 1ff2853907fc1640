//! Random histories with all that a real one has: branches, merges that keep
//! the one side, the other or both, renamed and moved rigs and files, a file that
//! the others use, commits that cannot be read, dates out of order.

use std::collections::BTreeMap;
use std::fmt::Write;

type Files = BTreeMap<String, String>;

#[derive(Clone)]
struct Rig {
    name: String,
    lengths: [u32; 2],
    /// Whether a line of it is.
    broken: bool,
    /// The commits on whose day it was fished, as marks, and those days.
    outings: Vec<(usize, String)>,
}

#[derive(Clone, Default)]
struct State {
    /// Rigs by file.
    files: BTreeMap<String, Vec<Rig>>,
    /// A rig that is fished on the day of the next commit: its file, and its number in it.
    fished: Option<(String, usize)>,
    /// What the shared spool breaks at, in tenths of a pound.
    spool: u32,
}

impl State {
    fn texts(&self) -> Files {
        let mut texts = Files::new();
        let spool = self.spool;
        let (whole, tenth) = (spool / 10, spool % 10);
        texts.insert(
            "shared.rig".to_owned(),
            format!("spool fine \"fine\"\n  material fluoro\n  measured 0.{spool} mm\n  rated {whole}.{tenth} lb\n\n\
                fly bracken\n  hook #14\n  bead {whole}.{tenth} mm tungsten\n"),
        );
        for (path, rigs) in &self.files {
            let up = "../".repeat(path.matches('/').count());
            let mut text = format!("use \"{up}shared.rig\"\n");
            for rig in rigs {
                let (name, [upper, lower]) = (&rig.name, rig.lengths);
                let unit = if rig.broken { "" } else { " in" };
                // Depths take the longest to work out, so not every rig has a water.
                let water = if name.ends_with(['4', '9']) {
                    "  water 3 ft at 2 ft/s over cobble\n"
                } else {
                    ""
                };
                // A string takes whatever is written to it.
                let _ = write!(
                    text,
                    "\nrig {name}\n{water}  butt 9 ft of 0.25 mm nylon\n  tippet {upper}{unit} of 6X fluoro as \
                     upper\n  dropper 8 in with #16\n  tippet {lower} in of fine\n  point bracken\n"
                );
                for (mark, day) in &rig.outings {
                    let _ = write!(
                        text,
                        "\nouting day-{mark}\n  day {day}\n  rig {name}\n  caught 1 on point\n"
                    );
                }
            }
            texts.insert(path.clone(), text);
        }
        texts
    }
}

struct Maker {
    chance: u64,
    next: u32,
    marks: usize,
    stream: String,
    /// The tip of each branch, as its mark and texts.
    tips: BTreeMap<&'static str, (usize, Files)>,
}

/// A history of as many steps, as a stream for `git fast-import`.
pub fn made_history(seed: u64, steps: usize) -> String {
    let mut maker = Maker {
        chance: seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1,
        next: 0,
        marks: 0,
        stream: String::new(),
        tips: BTreeMap::new(),
    };
    let mut state = State {
        spool: 28,
        ..State::default()
    };
    for file in ["beck.rig", "high/gill.rig"] {
        maker.born(&mut state, file);
        maker.born(&mut state, file);
    }
    maker.commit("main", &mut state, None);
    for _ in 0..steps {
        if maker.below(4) == 0 {
            maker.branch(&mut state);
        } else {
            maker.act(&mut state);
            maker.commit("main", &mut state, None);
        }
    }
    maker.stream
}

impl Maker {
    /// Knuth's linear congruential generator (MMIX); the upper half is used.
    fn below(&mut self, most: usize) -> usize {
        self.chance = self
            .chance
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        (self.chance >> 33) as usize % most
    }

    fn born(&mut self, state: &mut State, file: &str) {
        self.next += 1;
        let lengths = [20 + self.below(60) as u32, 12 + self.below(30) as u32];
        let rigs = state.files.entry(file.to_owned()).or_default();
        rigs.push(Rig {
            name: format!("card-{}", self.next),
            lengths,
            broken: false,
            outings: Vec::new(),
        });
    }

    fn act(&mut self, state: &mut State) {
        let files: Vec<String> = state.files.keys().cloned().collect();
        let file = files[self.below(files.len())].clone();
        let many = state.files[&file].len();
        let at = self.below(many.max(1));
        let rigs = state.files.get_mut(&file).expect("it is there");
        match self.below(12) {
            0 => self.born(state, &file),
            10 | 11 if many > 0 => state.fished = Some((file, at)),
            1 if many > 1 => {
                rigs.remove(at);
            }
            2 if many > 0 && !rigs[at].broken => {
                self.next += 1;
                rigs[at].name = format!("card-{}", self.next);
            }
            3 if many > 0 => rigs[at].broken = !rigs[at].broken,
            4 => state.spool = 20 + self.below(12) as u32,
            5 => {
                self.next += 1;
                let rigs = state.files.remove(&file).expect("it is there");
                let folder = ["", "high/", "low/"][self.below(3)];
                state
                    .files
                    .insert(format!("{folder}water-{}.rig", self.next), rigs);
            }
            6 if many > 1 => {
                let rig = rigs.remove(at);
                let other = files[self.below(files.len())].clone();
                state.files.get_mut(&other).expect("it is there").push(rig);
            }
            7 if many > 1 && rigs.iter().all(|rig| !rig.broken) => {
                let other = (at + 1) % many;
                let name = rigs[at].name.clone();
                rigs[at].name = std::mem::replace(&mut rigs[other].name, name);
            }
            _ if many > 0 => rigs[at].lengths[usize::from(many > 1)] += 2,
            _ => self.born(state, &file),
        }
    }

    fn branch(&mut self, state: &mut State) {
        self.tips.insert("side", self.tips["main"].clone());
        let mut side = state.clone();
        for _ in 0..1 + self.below(3) {
            self.act(&mut side);
            self.commit("side", &mut side, None);
            if self.below(2) == 0 {
                self.act(state);
                self.commit("main", state, None);
            }
        }
        match self.below(3) {
            0 => {}
            1 => *state = side,
            // Both: the files of the one, and of the other what the first lacks under no name that it has.
            _ => {
                let names: Vec<String> = state
                    .files
                    .values()
                    .flatten()
                    .map(|rig| rig.name.clone())
                    .collect();
                for (file, rigs) in side.files {
                    let new = rigs.into_iter().filter(|rig| !names.contains(&rig.name));
                    // A day at the water is kept once, with the rig of the line.
                    let new = new.map(|rig| Rig {
                        outings: Vec::new(),
                        ..rig
                    });
                    state.files.entry(file).or_default().extend(new);
                }
            }
        }
        self.commit("main", state, Some("side"));
    }

    fn commit(&mut self, branch: &'static str, state: &mut State, merged: Option<&'static str>) {
        self.marks += 1;
        let mark = self.marks;
        // Now and then a commit was written earlier than the one before it.
        let late = if self.below(5) == 0 { 4 } else { 0 };
        let when = 1_767_261_600 + (mark + 5 - late) * 43_200;
        if let Some((file, at)) = state.fished.take() {
            // The first of January, and no history is longer than that month.
            let day = format!("2026-01-{:02}", 1 + (when - 1_767_225_600) / 86_400);
            state.files.get_mut(&file).expect("it is there")[at]
                .outings
                .push((mark, day));
        }
        let texts = state.texts();
        let before = self.tips.get(branch).cloned();
        let stream = &mut self.stream;
        let subject = format!("step {mark}");
        let _ = write!(
            stream,
            "commit refs/heads/{branch}\nmark :{mark}\nauthor An Angler <angler@valley.example> {when} +0000\ncommitter An \
             Angler <angler@valley.example> {when} +0000\ndata {}\n{subject}\n",
            subject.len()
        );
        if let Some((parent, _)) = &before {
            let _ = writeln!(stream, "from :{parent}");
        }
        if let Some((other, _)) = merged.and_then(|merged| self.tips.get(merged)) {
            let _ = writeln!(stream, "merge :{other}");
        }
        let _ = writeln!(stream, "deleteall");
        for (path, text) in &texts {
            let _ = write!(stream, "M 100644 inline {path}\ndata {}\n{text}\n", text.len());
        }
        self.tips.insert(branch, (mark, texts));
    }
}
