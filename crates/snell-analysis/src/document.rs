//! One text: a `.rig` file or a Markdown page, and the lines of it that count.

use snell_text::{FenceTag, LineIndex, Marker, Span, Stands, TextId};
use std::path::{Path, PathBuf};
use std::sync::{Arc, OnceLock};

/// What kind of text it is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Kind {
    /// A file of its own.
    Rig,
    /// A page with `rig` fences.
    Markdown,
}

impl Kind {
    /// By a file's ending; `None` where it is neither.
    pub fn of(path: &Path) -> Option<Self> {
        let ending = path.extension()?.to_str()?.to_ascii_lowercase();
        match ending.as_str() {
            "rig" => Some(Self::Rig),
            "md" | "markdown" => Some(Self::Markdown),
            _ => None,
        }
    }
}

/// One text with its path.
#[derive(Debug)]
pub struct Document {
    /// Its number.
    pub id: TextId,
    /// Its path as it was named, for people.
    pub path: PathBuf,
    /// What kind of text it is.
    pub kind: Kind,
    /// The text.
    pub text: Arc<str>,
    /// Its path with every link followed, where it stands on a disk.
    pub real: Option<PathBuf>,
    index: OnceLock<LineIndex>,
}

impl Document {
    /// A document whose lines are counted when first asked for.
    pub fn new(id: TextId, path: PathBuf, kind: Kind, text: Arc<str>) -> Self {
        Self {
            id,
            path,
            kind,
            text,
            real: None,
            index: OnceLock::new(),
        }
    }

    /// The same text once more.
    pub fn again(&self) -> Self {
        Self {
            real: self.real.clone(),
            ..Self::new(self.id, self.path.clone(), self.kind, self.text.clone())
        }
    }

    /// Its lines.
    pub fn index(&self) -> &LineIndex {
        self.index.get_or_init(|| LineIndex::new(&self.text))
    }

    /// The files in it, each as passages of lines: a `.rig` file is one; a page has one that all its
    /// plain fences share, and one for each fence that sees only itself. Fences that their page calls
    /// wrong are left out.
    pub fn files(&self) -> Vec<Vec<Vec<Span>>> {
        if self.kind == Kind::Rig {
            return vec![snell_syntax::whole(&self.text)];
        }
        let mut shared = Vec::new();
        let mut alone = Vec::new();
        shared.extend(self.use_markers());
        for fence in snell_text::fences(&self.text) {
            match fence.tag {
                FenceTag::Shared => shared.push(fence.lines),
                FenceTag::Alone | FenceTag::Good => alone.push(vec![fence.lines]),
                FenceTag::Bad => {}
            }
        }
        shared.sort_by_key(|lines: &Vec<Span>| lines.first().map(|line| line.start));
        let shared = (!shared.is_empty()).then_some(shared);
        shared.into_iter().chain(alone).collect()
    }

    /// The `use` lines of a page that stand in comments of it, `<!-- rig: use "rigs.rig" -->`.
    fn use_markers(&self) -> Vec<Vec<Span>> {
        let is_use = |marker: &Marker| {
            let mut words = marker.words.of(&self.text).split_whitespace();
            marker.stands == Stands::Alone
                && words.next().is_some_and(|word| word.eq_ignore_ascii_case("use"))
        };
        let markers = snell_text::markers(&self.text).into_iter();
        markers.filter(is_use).map(|marker| vec![marker.words]).collect()
    }

    /// Every passage that `tidy` may lay out: also those of fences that are called wrong.
    pub fn passages(&self) -> Vec<Vec<Span>> {
        match self.kind {
            Kind::Rig => snell_syntax::whole(&self.text),
            Kind::Markdown => snell_text::fences(&self.text)
                .into_iter()
                .map(|fence| fence.lines)
                .collect(),
        }
    }

    /// The name of a rig that stands before any block: the file's, in letters that a name may have.
    pub fn rig_name(&self) -> String {
        let stem = self
            .path
            .file_stem()
            .map(|stem| stem.to_string_lossy().into_owned());
        let plain = |letter: char| if letter.is_alphanumeric() { letter } else { '-' };
        let name: String = stem.unwrap_or_default().chars().map(plain).collect();
        let name = name.trim_matches(|letter: char| !letter.is_alphabetic());
        if name.is_empty() {
            "unnamed".to_owned()
        } else {
            name.to_owned()
        }
    }
}
