//! The one table of limits: how much is read, worked out and told, far beyond
//! what a person writes, so that no text can stall the program or fill the
//! machine. Whoever keeps to a limit reads it here, and the page of limits is
//! made from it.

use crate::code::Code;

/// What a limit counts.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Counted {
    /// Bytes of text.
    Bytes,
    /// Things.
    Things,
    /// Seconds.
    Seconds,
}

/// How somebody hears that a limit was met.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Told {
    /// By a fault of this code, at the place that goes beyond it.
    Fault(Code),
    /// By a message that holds these words.
    Message(&'static str),
    /// Nothing is refused: this is done, or left out, instead.
    Instead(&'static str),
}

impl Limit {
    /// The same for what is counted in memory.
    pub const fn count(self) -> usize {
        self.most() as usize
    }
}

macro_rules! limits {
    ($($(#[$meta:meta])* $group:ident $heading:literal { $($limit:ident $most:expr, $counted:ident, $what:literal => $told:expr;)* })*) => {
        /// A limit of the program.
        #[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
        pub enum Limit {
            $($(#[doc = $what] $limit,)*)*
        }

        impl Limit {
            /// Every limit, group by group, each under the words that stand over its group.
            pub const ALL: &[(&'static str, &[Self])] = &[$(($heading, &[$(Self::$limit,)*]),)*];

            /// How much is allowed.
            pub const fn most(self) -> u64 {
                match self {
                    $($(Self::$limit => $most,)*)*
                }
            }

            /// What that counts.
            pub const fn counted(self) -> Counted {
                match self {
                    $($(Self::$limit => Counted::$counted,)*)*
                }
            }

            /// Of what there is no more, in words.
            pub const fn what(self) -> &'static str {
                match self {
                    $($(Self::$limit => $what,)*)*
                }
            }

            /// How somebody hears of it.
            pub const fn told(self) -> Told {
                match self {
                    $($(Self::$limit => $told,)*)*
                }
            }
        }
    };
}

limits! {
    Reading "Reading" {
        FileBytes 8 * 1024 * 1024, Bytes, "one file, page or standard input" => Told::Message("it is larger than 8 MiB");
        LineBytes 16 * 1024, Bytes, "one line" => Told::Fault(Code::LineTooLong);
        Parentheses 32, Things, "parentheses in each other" => Told::Fault(Code::NestedTooDeep);
        Number 1_000_000_000_000, Things, "a number" => Told::Fault(Code::NumberTooLarge);
        Blocks 20_000, Things, "blocks of one text" => Told::Fault(Code::TextOverfull);
        Uses 1_000, Things, "`use` lines of one text" => Told::Fault(Code::TextOverfull);
        BlockLines 2_000, Things, "lines of one block" => Told::Fault(Code::TextOverfull);
        BrokenLines 1_000, Things, "broken lines told of one text" => Told::Fault(Code::FaultsLeftOut);
    }
    Rigs "Rigs and rules" {
        Bases 100, Things, "blocks made `from` one another" => Told::Fault(Code::FromLong);
        Parts 100, Things, "parts of one rig" => Told::Fault(Code::RigOverfull);
        Values 64, Things, "values that hang on one another" => Told::Fault(Code::ValueDeep);
        Rulebooks 32, Things, "rulebooks that take one another in" => Told::Fault(Code::RulebookLoop);
        RuleLimits 16, Things, "limits of a rule that hang on one another" => Told::Fault(Code::ValueDeep);
        Findings 2_000, Things, "findings of one text" => Told::Fault(Code::FindingsLeftOut);
        Causes 64, Things, "places that one value is told to come from" => Told::Instead("the first ones are told");
    }
    Mends "Mends and fits" {
        MendWork 20_000, Things, "values worked out for the mends of one finding"
            => Told::Instead("what was found by then is offered, none of it as sure");
        RigMendWork 320_000, Things, "values worked out for all mends of one rig"
            => Told::Instead("the findings after that come without mends; each has its own when it is asked for alone");
        MendRounds 32, Things, "rounds of `check --mend`" => Told::Instead("what is left is told as it is");
        MendAttempts 100, Things, "attempts of `check --mend`" => Told::Message("attempts, the rest was not tried");
        FitWork 120_000, Things, "steps of one part of a fit" => Told::Message("broken off");
    }
    Shown "Shown" {
        CardLines 12, Things, "depths, or speeds, of a card" => Told::Message("a card has room for 12");
        PlanWaters 24, Things, "waters of a day" => Told::Message("a day has room for 24 waters");
        CardFlies 100, Things, "flies of a box that a card tries" => Told::Message("a card tries 100 flies at most");
        DrawnRigs 40, Things, "rigs at once that are shown with a verdict, and with what their estimates lie between"
            => Told::Message("rigs at once are shown without a verdict");
        Reports 200, Things, "findings drawn with their lines" => Told::Message("more finding");
        ComparedParts 1_000_000, Things, "pairs of parts that two rigs are compared by"
            => Told::Instead("what opens and ends both alike is matched, and the rest told as gone and new");
        ComparedRigs 100_000, Things, "pairs of rigs looked through for one under a new name"
            => Told::Instead("they are told as gone and new");
        LiveFiles 1024 * 1024, Bytes, "the files that one live page of a book is given"
            => Told::Instead("it is given none, and its cards tell that they are missing");
    }
    Around "Other programs" {
        Message 64 * 1024 * 1024, Bytes, "one message of an editor" => Told::Message("Parse error");
        MessageDepth 100, Things, "lists and objects of a message in each other" => Told::Message("Parse error");
        OpenText 64 * 1024 * 1024, Bytes, "one text that is open in an editor"
            => Told::Instead("it is let go, as if it was closed");
        TidyEdits 4_000, Things, "edits that lay a text out in an editor"
            => Told::Instead("they are made as one");
        JudgedRigs 1_000, Things, "rigs of one text over which an editor shows whether they fish"
            => Told::Instead("over the others stand their totals alone");
        OutlineEntries 10_000, Things, "entries of an outline in an editor" => Told::Instead("the first ones are told");
        FolderEntries 200_000, Things, "files and folders of a project that an editor asks about"
            => Told::Message("files and folders, too many to look through");
        GitSilence 10, Seconds, "of git, saying nothing" => Told::Message("git said nothing for 10 seconds and was ended");
    }
}
