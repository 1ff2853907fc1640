//! A made-up history of a notebook that knows its own story: rigs born,
//! changed, renamed, broken and mended, dropped, on branches that are merged,
//! while files change their names.
//!
//! It is written as a stream for `git fast-import`.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;

/// Something that truly happened to a rig.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct True {
    /// The subject of the commit.
    pub subject: String,
    /// What happened.
    pub what: &'static str,
    /// The rig's name from then on.
    pub rig: String,
}

/// A history.
#[derive(Default)]
pub struct History {
    /// What `git fast-import` takes.
    pub stream: String,
    /// What happened.
    pub truth: Vec<True>,
    /// The subjects of the merges.
    pub merges: BTreeSet<String>,
    /// How many commits there are.
    pub commits: usize,
    /// Every text of a rig file that the history ever held.
    pub texts: BTreeSet<String>,
    /// How many states of files it went through.
    pub file_states: usize,
    /// How many files stayed as they were while the file that they use changed.
    pub stirred: usize,
}

#[derive(Clone, PartialEq)]
struct Rig {
    name: String,
    number: usize,
    lengths: [u32; 3],
    broken: Option<Broken>,
}

#[derive(Clone, Copy, PartialEq)]
enum Broken {
    Unit,
    Head,
}

impl Rig {
    fn text(&self) -> String {
        let [butt, upper, lower] = self.lengths;
        let head = if self.broken == Some(Broken::Head) {
            "5"
        } else {
            ""
        };
        let unit = if self.broken == Some(Broken::Unit) {
            ""
        } else {
            " in"
        };
        format!(
            "\nrig {head}{} \"card {}\"\n  butt    {butt} in of 0.25 mm nylon\n  sighter 15 in of 0.20 mm nylon pink\n  \
             tippet  {upper}{unit} of 6X fluoro as upper\n  dropper 8 in with #16 2 mm tungsten\n  \
             tippet  {lower} in of 6X fluoro\n  point   bracken\n",
            self.name, self.number
        )
    }
}

/// What the tree holds: rigs by file, and the bead of the shared fly in tenths of a millimetre.
#[derive(Clone, Default)]
struct Tree {
    files: BTreeMap<String, (Vec<Rig>, usize)>,
    bead: u32,
}

impl Tree {
    fn texts(&self) -> BTreeMap<String, String> {
        let mut texts: BTreeMap<String, String> = BTreeMap::new();
        for (path, (rigs, comments)) in &self.files {
            let mut text = "use \"flies.rig\"\n".to_owned();
            text.extend(rigs.iter().map(Rig::text));
            // A string takes whatever is written to it.
            let _ = write!(text, "{}", "// another evening\n".repeat(*comments));
            texts.insert(path.clone(), text);
        }
        if self.bead > 0 {
            let (whole, tenth) = (self.bead / 10, self.bead % 10);
            let fly =
                format!("fly bracken \"bracken nymph\"\n  hook #14\n  bead {whole}.{tenth} mm tungsten\n");
            texts.insert("flies.rig".to_owned(), fly);
        }
        texts
    }
}

struct Maker {
    history: History,
    chance: u64,
    next: usize,
    /// The texts as they were committed last on each branch.
    branches: BTreeMap<&'static str, (usize, BTreeMap<String, String>)>,
}

/// A history of as many commits.
pub fn generated_history(commits: usize) -> History {
    let mut maker = Maker {
        history: History::default(),
        chance: 0x9E37_79B9,
        next: 0,
        branches: BTreeMap::new(),
    };
    let mut tree = Tree {
        bead: 28,
        ..Tree::default()
    };
    for file in ["beck.rig", "weir.rig", "gill.rig"] {
        maker.born(&mut tree, file);
    }
    maker.commit("main", &tree, None, |_| {});
    while maker.history.commits < commits {
        match maker.below(12) {
            0 => maker.branch(&mut tree),
            1 => maker.rename_file(&mut tree),
            2 => maker.change_fly(&mut tree),
            _ => maker.act("main", &mut tree, None),
        }
    }
    maker.history
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

    fn length(&mut self) -> u32 {
        20 + self.below(400) as u32
    }

    fn tell(&mut self, what: &'static str, rig: &str) {
        let subject = format!("step {}", self.history.commits);
        self.history.truth.push(True {
            subject,
            what,
            rig: rig.to_owned(),
        });
    }

    /// Writes the commit of all that was told since the last one.
    fn commit(
        &mut self,
        branch: &'static str,
        tree: &Tree,
        merged: Option<&'static str>,
        also: impl FnOnce(&mut String),
    ) {
        let number = self.history.commits;
        let texts = tree.texts();
        let (parent, before) = match self.branches.get(branch) {
            Some((parent, before)) => (Some(*parent), before.clone()),
            None => (None, BTreeMap::new()),
        };
        let (stream, subject) = (&mut self.history.stream, format!("step {number}"));
        let when = 1_767_261_600 + number * 43_200;
        let _ = write!(
            stream,
            "commit refs/heads/{branch}\nmark :{}\nauthor An Angler <angler@valley.example> {when} +0000\ncommitter An \
             Angler <angler@valley.example> {when} +0000\ndata {}\n{subject}\n",
            number + 1,
            subject.len()
        );
        if let Some(parent) = parent {
            let _ = writeln!(stream, "from :{parent}");
        }
        if let Some((other, _)) = merged.and_then(|merged| self.branches.get(merged)) {
            let _ = writeln!(stream, "merge :{other}");
            self.history.merges.insert(subject.clone());
        }
        for path in before.keys().filter(|path| !texts.contains_key(*path)) {
            let _ = writeln!(stream, "D {path}");
        }
        for (path, text) in &texts {
            if before.get(path) != Some(text) {
                let _ = write!(stream, "M 100644 inline {path}\ndata {}\n{text}\n", text.len());
                self.history.file_states += 1;
            }
            self.history.texts.insert(text.clone());
        }
        also(stream);
        self.history.commits += 1;
        self.branches.insert(branch, (number + 1, texts));
    }

    fn born(&mut self, tree: &mut Tree, file: &str) {
        self.next += 1;
        let rig = Rig {
            name: format!("rig-{}", self.next),
            number: self.next,
            lengths: [self.length(), self.length(), self.length()],
            broken: None,
        };
        self.tell("born", &rig.name);
        tree.files.entry(file.to_owned()).or_default().0.push(rig);
    }

    /// One thing that happens to one rig, with its commit; only in `file` if one is named.
    fn act(&mut self, branch: &'static str, tree: &mut Tree, file: Option<&str>) {
        let files: Vec<String> = tree
            .files
            .keys()
            .filter(|name| file.is_none_or(|file| *name == file))
            .cloned()
            .collect();
        let file = files[self.below(files.len())].clone();
        let many = tree.files[&file].0.len();
        match self.below(10) {
            0 | 1 => self.born(tree, &file),
            2 if many > 2 => {
                let at = self.below(many);
                let rig = tree.files.get_mut(&file).expect("it is there").0.remove(at);
                self.tell("dropped", &rig.name);
            }
            3 if many > 0 => {
                let at = self.below(many);
                self.next += 1;
                let name = format!("rig-{}", self.next);
                self.tell("renamed", &name);
                tree.files.get_mut(&file).expect("it is there").0[at].name = name;
            }
            4 if many > 0 => return self.break_and_mend(branch, tree, &file),
            5 => tree.files.get_mut(&file).expect("it is there").1 += 1,
            6 => {
                let note = format!(
                    "M 100644 inline notes.txt\ndata {}\n{}\n",
                    6,
                    format_args!("{:06}", self.next)
                );
                self.next += 1;
                return self.commit(branch, tree, None, |stream| stream.push_str(&note));
            }
            _ if many > 0 => self.lengthen(tree, &file),
            _ => self.born(tree, &file),
        }
        self.commit(branch, tree, None, |_| {});
    }

    fn lengthen(&mut self, tree: &mut Tree, file: &str) {
        let rigs = tree.files[file].0.len();
        let (at, part, by) = (self.below(rigs), self.below(3), 1 + self.below(9) as u32);
        let rig = &mut tree.files.get_mut(file).expect("it is there").0[at];
        rig.lengths[part] += by;
        let name = rig.name.clone();
        self.tell("changed", &name);
    }

    /// A state that cannot be read whole is committed, and mended by the next commit. Where the line that opens a
    /// rig is broken, its lines fall to the rig above it.
    fn break_and_mend(&mut self, branch: &'static str, tree: &mut Tree, file: &str) {
        let rigs = tree.files[file].0.len();
        let at = self.below(rigs);
        let broken = if self.below(2) == 0 {
            Broken::Unit
        } else {
            Broken::Head
        };
        let from = if broken == Broken::Head {
            at.saturating_sub(1)
        } else {
            at
        };
        let names: Vec<String> = tree.files[file].0[from..=at]
            .iter()
            .map(|rig| rig.name.clone())
            .collect();
        for (what, state) in [("unreadable", Some(broken)), ("mended", None)] {
            tree.files.get_mut(file).expect("it is there").0[at].broken = state;
            for name in &names {
                self.tell(what, name);
            }
            self.commit(branch, tree, None, |_| {});
        }
    }

    fn rename_file(&mut self, tree: &mut Tree) {
        let files: Vec<String> = tree.files.keys().cloned().collect();
        let old = files[self.below(files.len())].clone();
        self.next += 1;
        let rigs = tree.files.remove(&old).expect("it is there");
        tree.files.insert(format!("water-{}.rig", self.next), rigs);
        self.commit("main", tree, None, |_| {});
    }

    /// Every rig has the fly on its point, so every rig changes with it.
    fn change_fly(&mut self, tree: &mut Tree) {
        tree.bead = if tree.bead == 28 { 33 } else { 28 };
        let names: Vec<String> = tree
            .files
            .values()
            .flat_map(|(rigs, _)| rigs)
            .map(|rig| rig.name.clone())
            .collect();
        for name in names {
            self.tell("changed", &name);
        }
        self.history.stirred += tree.files.len();
        self.commit("main", tree, None, |_| {});
    }

    /// A branch that works on one file while the main one works on others, and is merged; now and then the merge
    /// changes something itself.
    fn branch(&mut self, tree: &mut Tree) {
        let mut side = tree.clone();
        let own = {
            let files: Vec<String> = tree.files.keys().cloned().collect();
            files[self.below(files.len())].clone()
        };
        self.branches.insert("side", self.branches["main"].clone());
        let others: Vec<String> = tree.files.keys().filter(|file| **file != own).cloned().collect();
        for _ in 0..1 + self.below(4) {
            self.act("side", &mut side, Some(&own));
            let other = others[self.below(others.len())].clone();
            self.act("main", tree, Some(&other));
        }
        tree.files.insert(own.clone(), side.files[&own].clone());
        if self.below(3) == 0 && !tree.files[&own].0.is_empty() {
            self.lengthen(tree, &own);
        }
        self.commit("main", tree, Some("side"), |_| {});
    }
}
