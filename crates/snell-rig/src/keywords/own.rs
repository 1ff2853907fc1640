//! Lines with a form of their own: `let`, `limit`, `change`, the condition words.

use snell_syntax::BlockKind;

/// The form of a line with a form of its own: `let`, `limit`, `change`, the condition words.
pub struct OwnForm {
    /// The word that opens it.
    pub key: &'static str,
    /// The kinds of block that it may stand in.
    pub within: &'static [BlockKind],
    /// What it looks like.
    pub shape: &'static str,
    /// One line of documentation.
    pub about: &'static str,
}

macro_rules! forms {
    ($($name:ident $key:literal $within:expr, $shape:literal $about:literal)*) => {
        /// A key of a line with a form of its own.
        #[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
        pub enum OwnKey {
            $(#[doc = $about] $name,)*
        }

        impl OwnKey {
            /// Every one, in the order of [`OWN_FORMS`].
            pub const ALL: &'static [Self] = &[$(Self::$name,)*];
        }

        /// The lines with a form of their own.
        pub const OWN_FORMS: &[OwnForm] = &[$(OwnForm {
            key: $key,
            within: $within,
            shape: $shape,
            about: $about,
        },)*];
    };
}

forms! {
    Let "let" &[BlockKind::Rig],
        "let NAME = VALUE"
        "Gives a value a name for this rig's expressions."
    Expect "expect" &[BlockKind::Rig],
        "expect MEASURE CONDITION"
        "Fails the check when the condition does not hold."
    Change "change" &[BlockKind::Rig, BlockKind::Outing],
        "change TARGET to …"
        "In a rig made from another, or at the water: gives a part other values."
    Limit "limit" &[BlockKind::Rule],
        "limit NAME VALUE"
        "Names a figure of the rule that a rulebook may set."
    When "when" &[BlockKind::Rule],
        "when MEASURE CONDITION"
        "The rule speaks only where this holds."
    Unless "unless" &[BlockKind::Rule],
        "unless MEASURE CONDITION"
        "The rule is silent where this holds."
    Keep "keep" &[BlockKind::Rule],
        "keep MEASURE CONDITION"
        "What the rule asks for."
}

impl OwnKey {
    /// The key that a word is.
    pub fn of(word: &str) -> Option<Self> {
        let at = OWN_FORMS.iter().position(|form| form.key == word)?;
        Self::ALL.get(at).copied()
    }
}
