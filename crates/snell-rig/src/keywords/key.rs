//! Keys as values: the rows of one kind of block, and an enum with one name for each.
//!
//! Both are written by one macro, so that they cannot disagree. Who reads a block matches its keys without
//! a catch-all, and so a new row does not compile before every reader knows it.

use super::row::Row;
use snell_syntax::BlockKind;

/// A key of one kind of block.
pub trait Key: Copy + Eq + std::fmt::Debug + 'static {
    /// The kind of block.
    const KIND: BlockKind;
    /// Every key, in the order of the table.
    const ALL: &'static [Self];
    /// The row of each.
    const ROWS: &'static [Row];

    /// Its row.
    fn row(self) -> &'static Row;

    /// The key that a word is.
    fn of(word: &str) -> Option<Self> {
        let at = Self::ROWS.iter().position(|row| row.key == word)?;
        Self::ALL.get(at).copied()
    }
}

macro_rules! keys {
    (
        $(#[$meta:meta])* $name:ident of $kind:ident {
            $($key:ident = $row:expr,)*
        }
    ) => {
        $(#[$meta])*
        #[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
        pub enum $name {
            $($key,)*
        }

        impl $crate::keywords::key::Key for $name {
            const KIND: BlockKind = BlockKind::$kind;
            const ALL: &'static [Self] = &[$(Self::$key,)*];
            const ROWS: &'static [Row] = &[$($row,)*];

            fn row(self) -> &'static Row {
                match self {
                    $(Self::$key => {
                        const ROW: Row = $row;
                        &ROW
                    })*
                }
            }
        }
    };
}

/// Keys that fall into groups, each an enum of its own, and some that belong to none.
macro_rules! grouped_keys {
    (
        $(#[$meta:meta])* $name:ident of $kind:ident {
            $($(#[$about:meta])* $group:ident($of:ident) { $($key:ident = $row:expr,)* })*
        }
        { $($alone:ident = $own:expr,)* }
    ) => {
        $(
            $(#[$about])*
            #[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
            pub enum $of {
                $($key,)*
            }

            impl $of {
                /// Each of them, in the order of the table.
                pub const ALL: &'static [Self] = &[$(Self::$key,)*];

                /// Its row.
                pub fn row(self) -> &'static Row {
                    match self {
                        $(Self::$key => {
                        const ROW: Row = $row;
                        &ROW
                    })*
                    }
                }

                /// The word that opens its line.
                pub fn word(self) -> &'static str {
                    self.row().key
                }

                /// The one that a word is.
                pub fn of(word: &str) -> Option<Self> {
                    Self::ALL.iter().copied().find(|key| key.word() == word)
                }
            }
        )*

        $(#[$meta])*
        #[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
        pub enum $name {
            $($(#[$about])* $group($of),)*
            $(#[doc = stringify!($own)] $alone,)*
        }

        impl $crate::keywords::key::Key for $name {
            const KIND: BlockKind = BlockKind::$kind;
            const ALL: &'static [Self] = &[
                $($(Self::$group($of::$key),)*)*
                $(Self::$alone,)*
            ];
            const ROWS: &'static [Row] = &[$($($row,)*)* $($own,)*];

            fn row(self) -> &'static Row {
                match self {
                    $(Self::$group(key) => key.row(),)*
                    $(Self::$alone => {
                        const ROW: Row = $own;
                        &ROW
                    })*
                }
            }
        }
    };
}

pub(super) use {grouped_keys, keys};
