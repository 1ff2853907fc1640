//! One text: a `.rig` file or a page, and the lines of it that count.

use snell_text::{FenceTag, LineIndex, Marker, Markup, Page, Span, Stands, TextId};
use snell_units::in_order;
use std::path::{Path, PathBuf};
use std::sync::{Arc, OnceLock};

/// What kind of text it is.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Kind {
    /// A file of its own.
    Rig,
    /// A page with fences of rigs.
    Page(Markup),
    /// A page that a program made out of another: it is read, and never changed.
    #[cfg(feature = "published")]
    Published,
}

impl Kind {
    /// A page of Markdown.
    pub const MARKDOWN: Self = Self::Page(Markup::Markdown);

    /// The endings of files, each with what it says of the file.
    pub const ENDINGS: &[(&str, Self)] = &[
        ("rig", Self::Rig),
        ("md", Self::Page(Markup::Markdown)),
        ("markdown", Self::Page(Markup::Markdown)),
        ("mkd", Self::Page(Markup::Markdown)),
        ("mdown", Self::Page(Markup::Markdown)),
        ("mkdn", Self::Page(Markup::Markdown)),
        ("mdx", Self::Page(Markup::Mdx)),
        ("qmd", Self::Page(Markup::Quarto)),
        ("rmd", Self::Page(Markup::Quarto)),
        ("adoc", Self::Page(Markup::AsciiDoc)),
        ("asciidoc", Self::Page(Markup::AsciiDoc)),
        ("rst", Self::Page(Markup::Restructured)),
        ("rest", Self::Page(Markup::Restructured)),
        #[cfg(feature = "published")]
        ("html", Self::Published),
        #[cfg(feature = "published")]
        ("htm", Self::Published),
        #[cfg(feature = "published")]
        ("xhtml", Self::Published),
    ];

    /// By a file's ending; `None` where it holds no rigs.
    pub fn of(path: &Path) -> Option<Self> {
        let ending = path.extension()?.to_str()?;
        let named = |(name, kind): &(&str, Self)| ending.eq_ignore_ascii_case(name).then_some(*kind);
        Self::ENDINGS.iter().find_map(named)
    }

    /// Whether it is one of those that a folder is searched for. Published pages are made out of others, so that their
    /// rigs would be met twice: they are read where somebody names them.
    pub fn is_searched_for(path: &Path) -> bool {
        Self::of(path).is_some_and(Self::is_source)
    }

    /// Whether somebody wrote it, and no program made it out of another.
    pub fn is_source(self) -> bool {
        match self {
            Self::Rig | Self::Page(_) => true,
            #[cfg(feature = "published")]
            Self::Published => false,
        }
    }

    /// Whether its markers can be filled: comments of Markdown.
    pub fn is_article(self) -> bool {
        match self {
            Self::Page(Markup::Markdown | Markup::Mdx | Markup::Quarto) => true,
            Self::Rig | Self::Page(Markup::AsciiDoc | Markup::Restructured) => false,
            #[cfg(feature = "published")]
            Self::Published => false,
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
    /// The text; of a published page the rigs in it, each line on the line on which it stands there.
    pub text: Arc<str>,
    /// Its path with every link followed, where it stands on a disk.
    pub real: Option<PathBuf>,
    index: OnceLock<LineIndex>,
    page: OnceLock<Page>,
}

impl Document {
    /// A document whose lines are counted, and whose page is read, when first asked for.
    pub fn new(id: TextId, path: PathBuf, kind: Kind, text: Arc<str>) -> Self {
        let (text, page) = match kind {
            #[cfg(feature = "published")]
            Kind::Published => {
                let (text, page) = snell_text::published(&text);
                (text.into(), OnceLock::from(page))
            }
            Kind::Rig | Kind::Page(_) => (text, OnceLock::new()),
        };
        Self {
            id,
            path,
            kind,
            text,
            real: None,
            index: OnceLock::new(),
            page,
        }
    }

    /// The same text once more.
    pub fn again(&self) -> Self {
        Self {
            id: self.id,
            path: self.path.clone(),
            kind: self.kind,
            text: self.text.clone(),
            real: self.real.clone(),
            index: OnceLock::new(),
            page: self.page.clone(),
        }
    }

    /// What it holds as a page, which is read once; a rig file holds nothing in this way.
    pub fn page(&self) -> &Page {
        self.page.get_or_init(|| match self.kind {
            Kind::Page(markup) => Page::read(&self.text, markup),
            Kind::Rig => Page::default(),
            #[cfg(feature = "published")]
            Kind::Published => Page::default(),
        })
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
        for fence in &self.page().fences {
            match fence.tag {
                FenceTag::Shared => shared.push(fence.lines.clone()),
                FenceTag::Alone | FenceTag::Good => alone.push(vec![fence.lines.clone()]),
                FenceTag::Bad => {}
            }
        }
        in_order(&mut shared, |one: &Vec<Span>, other| {
            one.first().cmp(&other.first())
        });
        let shared = (!shared.is_empty()).then_some(shared);
        shared.into_iter().chain(alone).collect()
    }

    /// Whether the first of its files is one that others may use: a fence that sees only itself is seen by nobody else.
    pub fn is_shared(&self) -> bool {
        let shared = |fence: &snell_text::Fence| fence.tag == FenceTag::Shared;
        match self.kind {
            Kind::Rig => true,
            Kind::Page(_) => self.page().fences.iter().any(shared) || !self.use_markers().is_empty(),
            #[cfg(feature = "published")]
            Kind::Published => false,
        }
    }

    /// The `use` lines of a page that stand in comments of it, `<!-- rig: use "rigs.rig" -->`.
    pub fn use_markers(&self) -> Vec<Vec<Span>> {
        let is_use = |marker: &Marker| {
            let mut words = marker.words.of(&self.text).split_whitespace();
            marker.stands == Stands::Alone
                && words.next().is_some_and(|word| word.eq_ignore_ascii_case("use"))
        };
        let markers = self.page().markers.iter();
        markers
            .filter(|marker| is_use(marker))
            .map(|marker| vec![marker.words])
            .collect()
    }

    /// Every passage that `tidy` may lay out: also those of fences that are called wrong.
    pub fn passages(&self) -> Vec<Vec<Span>> {
        match self.kind {
            Kind::Rig => snell_syntax::whole(&self.text),
            Kind::Page(_) => self
                .page()
                .fences
                .iter()
                .map(|fence| fence.lines.clone())
                .collect(),
            #[cfg(feature = "published")]
            Kind::Published => Vec::new(),
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
