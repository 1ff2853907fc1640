//! The one registry of codes: what the tool itself finds, by name, with what each means.
//!
//! Reports print the names, and `why` and the reference explain them. What a rule finds goes by the
//! rule's own name instead, for people write rules of their own.

use std::borrow::Cow;
use std::fmt;
use std::ops::Deref;

macro_rules! codes {
    ($($(#[$meta:meta])* $stage:ident { $($code:ident $name:literal $about:literal)* })*) => {
        /// Something that the tool itself finds.
        #[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
        pub enum Code {
            $($(#[doc = $about] $code,)*)*
        }

        /// Where a code is found on the way from a text to what is said of it.
        #[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
        pub enum Stage {
            $($(#[$meta])* $stage,)*
        }

        impl Code {
            /// Every code, stage by stage.
            pub const ALL: &[Self] = &[$($(Self::$code,)*)*];

            /// Its name, in plain words joined by hyphens.
            pub const fn name(self) -> &'static str {
                match self {
                    $($(Self::$code => $name,)*)*
                }
            }

            /// What it means, in a sentence.
            pub const fn about(self) -> &'static str {
                match self {
                    $($(Self::$code => $about,)*)*
                }
            }

            /// Where it is found.
            pub const fn stage(self) -> Stage {
                match self {
                    $($(Self::$code)|* => Stage::$stage,)*
                }
            }
        }
    };
}

impl Code {
    /// The code with a name.
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.iter().copied().find(|code| code.name() == name)
    }
}

impl fmt::Display for Code {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.name())
    }
}

/// What a finding goes by: a code of the registry, or the name of the rule that found it.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum FindingCode {
    /// Found by the tool itself.
    Known(Code),
    /// Found by a rule of this name.
    Rule(Cow<'static, str>),
}

impl FindingCode {
    /// The code, where it is one of the registry.
    pub const fn known(&self) -> Option<Code> {
        match self {
            Self::Known(code) => Some(*code),
            Self::Rule(_) => None,
        }
    }

    /// The name that people see.
    pub fn name(&self) -> &str {
        match self {
            Self::Known(code) => code.name(),
            Self::Rule(name) => name,
        }
    }
}

impl From<Code> for FindingCode {
    fn from(code: Code) -> Self {
        Self::Known(code)
    }
}

impl Deref for FindingCode {
    type Target = str;

    fn deref(&self) -> &str {
        self.name()
    }
}

impl fmt::Display for FindingCode {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(self.name())
    }
}

impl PartialEq<Code> for FindingCode {
    fn eq(&self, other: &Code) -> bool {
        self.known() == Some(*other)
    }
}

impl PartialEq<str> for FindingCode {
    fn eq(&self, other: &str) -> bool {
        self.name() == other
    }
}

impl PartialEq<&str> for FindingCode {
    fn eq(&self, other: &&str) -> bool {
        self.name() == *other
    }
}

codes! {
    /// Lines are read.
    Reading {
        AndInCondition "and-in-condition" "A condition line holds one condition. Where two must hold, write two lines."
        CallApart "call-apart" "What min and max choose from stands in parentheses right behind them: min(1 ft, 2 ft)."
        CharacterUnknown "character-unknown" "The character means nothing in a rig file outside of a text in quotes."
        ColonMisplaced "colon-misplaced" "A key and its values stand side by side, without a colon: length 10 ft."
        CommaMisplaced "comma-misplaced" "A comma stands between two values and nowhere else; it may always be left out."
        ComparisonInSigns "comparison-in-signs" "Comparisons are written in words: at least, at most, over, under."
        ConditionUnfinished "condition-unfinished" "A condition breaks off before it says what must hold."
        EqualsMisplaced "equals-misplaced" "Only let and limit take an equals sign, behind the name: let low = 2 ft."
        FaultsLeftOut "faults-left-out" "A text with very many broken lines shows only the first of them."
        FullStopInside "full-stop-inside" "A full stop may end a line but not stand inside one; units are written without it."
        InchMarkMissing "inch-mark-missing" "Feet and inches in marks need both marks: 3'8\"."
        KeyMissing "key-missing" "A line begins with a word that says what it is about: tippet, length, hook."
        LineTooLong "line-too-long" "Lines longer than the limit are not read, so that no file can stall the reader."
        WordNearMiss "word-near-miss" "A word is one slip away from one that fits, so that it is asked which is meant."
        ReadTwoWays "read-two-ways" "Two values of a line can be read as the same thing, so that it is asked which is meant."
        ConflictMarker "conflict-marker" "Two versions of a text stand between the marks of a merge, and one is to be kept."
        LineUnreadable "line-unreadable" "The line cannot be read from the marked place on, and no common slip explains it."
        NameMissing "name-missing" "A let or limit line gives a name to a value; a name begins with a letter."
        NestedTooDeep "nested-too-deep" "Parentheses stand in each other deeper than anything on a rig needs."
        NumberMalformed "number-malformed" "A number has one decimal point or comma, or is a fraction: 1.5, 1,5, 3/4, 7 1/2."
        NumberNegative "number-negative" "There are no negative numbers; nothing on a rig is less than nothing."
        NumberOverZero "number-over-zero" "A fraction has a number other than 0 below its line."
        NumberTooLarge "number-too-large" "A number with so many digits is a slip of the keyboard."
        OperatorDangling "operator-dangling" "+ - / and times stand between two values."
        OperatorMissing "operator-missing" "Two values that stick together are not multiplied; times says so."
        OrInCondition "or-in-condition" "or stands only between words behind is: method is dry or team."
        ParenthesisClosed "parenthesis-closed" "A closing parenthesis needs an opening one before it."
        ParenthesisEmpty "parenthesis-empty" "Parentheses hold at least one value."
        ParenthesisOpen "parenthesis-open" "An opening parenthesis needs a closing one behind it, on the same line."
        QuoteOpen "quote-open" "A text ends with a quote, on the line that it began on."
        SizeApart "size-apart" "The # of a size stands close to its number: #14."
        SizeGlued "size-glued" "A size ends where a space stands: #14 jig, 6X fluoro."
        SizeUnfinished "size-unfinished" "A # opens a size and needs a number: #14, #2/0."
        SpacesAroundMinus "spaces-around-minus" "A minus stands between spaces, or it would be a hyphen in a name: depth - 20 in."
        SpacesAroundPlus "spaces-around-plus" "A plus stands between spaces: 2 ft + 3 in."
        SpacesAroundSlash "spaces-around-slash" "A division sign stands between spaces; close, it makes fractions and units: 5/64, ft/s."
        SpreadUnclear "spread-unclear" "A spread has two ends; with units on both it is written with to: 2 ft to 3 ft."
        TextMisplaced "text-misplaced" "Conditions, let, limit and change lines take values, no text."
        TextNotLast "text-not-last" "A text ends its line; what belongs to the line stands before it."
        TextOverfull "text-overfull" "A text has more blocks or lines than any notebook needs; the rest of it is not read."
        TitleBeforeFrom "title-before-from" "In the line that opens a block, from and the base stand before the title."
        UnitGlued "unit-glued" "A unit ends where a space stands: 20 in long."
        ValueExtra "value-extra" "The line is complete, yet another value follows."
        ValueMissing "value-missing" "Something is announced, and nothing follows."
        WordKept "word-kept" "A few small words join the parts of a line (of, to, with, from, is ...) and cannot be names."
        WordsUnread "words-unread" "A part of a line is not understood, and is kept as a note beside what is."
        WordMisplaced "word-misplaced" "A joining word stands where it joins nothing."
    }

    /// Rigs are put together and worked out.
    Rigs {
        UnitMissing "unit-missing" "A number stands without a unit where a quantity is needed."
        UnitUnknown "unit-unknown" "The word behind a number is no unit that is known."
        UnitWrong "unit-wrong" "A quantity of one kind stands where another kind is needed, such as a mass for a length."
        DimensionsDiffer "dimensions-differ" "Two quantities of different kinds are added or compared."
        SizeMarkMissing "size-mark-missing" "A hook size or line weight lacks its `#`."
        SizeSpaced "size-spaced" "A tippet size is written with a space, so that the X reads as `times`."
        SizeTooFine "size-too-fine" "From 9X on labels differ, so a diameter is needed."
        SizesContradict "sizes-contradict" "A line's size and its diameter cannot both be true."
        NumberDoubtful "number-doubtful" "A comma may part thousands or be a decimal comma."
        SpreadMisplaced "spread-misplaced" "A spread stands where one value is needed."
        ValueLacking "value-lacking" "A line lacks something that it needs."
        ValueLate "value-late" "A value stands behind another that it should stand before, or is said twice."
        ValueMisplaced "value-misplaced" "A value stands on a line that has no place for it."
        ClauseMisplaced "clause-misplaced" "A joining word stands on a line that does not take it."
        ClauseTwice "clause-twice" "A joining word stands twice on one line."
        JoiningWordMissing "joining-word-missing" "A word such as `of` or `with` is missing."
        TextUnwanted "text-unwanted" "A text in quotes stands on a line that takes none."
        TextMissing "text-missing" "A line that says something in quotes lacks its text."
        NameUnknown "name-unknown" "A name or word means nothing where it stands."
        NameTwice "name-twice" "One file gives two blocks of a kind the same name."
        NameAmbiguous "name-ambiguous" "Two used files both define a name that is wanted."
        NameFormer "name-former" "A measure is called by the name that it had before; the old name is still read."
        NameTaken "name-taken" "A let or label has the name of a measure or of a kind of part."
        ShippedReplaced "shipped-replaced" "A block takes the place of one that ships with the tool."
        KeyUnknown "key-unknown" "A line opens with a word that means nothing in its block."
        LineTwice "line-twice" "A line that may stand once stands twice in a block."
        LineMissing "line-missing" "A block lacks a line that it needs."
        FromLoop "from-loop" "Blocks are made from one another in a circle."
        FromLong "from-long" "A block is made from another through too many steps."
        Loop "loop" "A value needs itself to be computed."
        LengthUnsaid "length-unsaid" "A piece of line or a tag does not say how long it is, so that what hangs on it is unknown."
        MassUnsaid "mass-unsaid" "A shot does not say how heavy it is, so that how the rig sinks is unknown."
        LengthNotPositive "length-not-positive" "A part's length comes out as nothing or less."
        DividedByNothing "divided-by-nothing" "A division is by zero, or a number grows past all bounds."
        FunctionUnknown "function-unknown" "There is no such function."
        NotAValue "not-a-value" "A name stands for a word or a thing where a value is needed."
        PartAfterPoint "part-after-point" "A part follows the point, which ends the rig."
        PartUnattached "part-unattached" "A part has no line above or below to sit on."
        KnotTwice "knot-twice" "One join has two knots or two rings."
        PartInDerived "part-in-derived" "A rig made from another is changed by edits, not by parts of its own."
        EditWithoutBase "edit-without-base" "An edit stands in a rig that is not made from another."
        EditTwice "edit-twice" "Two edits have one target."
        TargetUnknown "target-unknown" "An edit's target is not in the base rig."
        RigOverfull "rig-overfull" "A rig has more parts than any line holds; the rest of them is not laid out."
        ValueDeep "value-deep" "A value hangs on too many others, one behind the other."
        FindingsLeftOut "findings-left-out" "A text has more faults than are told at once."
        Expect "expect" "A claim of the rig does not hold."
        ExpectUnknown "expect-unknown" "A claim cannot be judged, because something is unsaid."
        DayUnknown "day-unknown" "An outing names a day that the calendar does not have."
        CountNotWhole "count-not-whole" "An outing counts fish in something else than whole numbers."
        FlyNotOnRig "fly-not-on-rig" "An outing names a fly that its rig did not carry."
        WordUnasked "word-unasked" "A condition asks for a word of something that has none."
    }

    /// Rules are held against them.
    Rules {
        AllowIdle "allow-idle" "An `allow` silences nothing on its rig."
        RuleUnknown "rule-unknown" "A line names a rule, or a rule's limit, that is not in sight."
        RuleIncomplete "rule-incomplete" "A rule lacks what it would ask for or say."
        SayBroken "say-broken" "A measure in the braces of a `say` cannot be read."
        RulebookLoop "rulebook-loop" "Rulebooks take one another in, in a circle."
    }

    /// Files are found and read.
    Files {
        FileUnread "file-unread" "A file could not be read: it is not text in UTF-8, or too large."
        FenceUnread "fence-unread" "A fence of a page looks as if it held rigs, and is not read."
        UseMissing "use-missing" "A `use` line names a file that cannot be read."
        UseOutside "use-outside" "A `use` line names a file outside the project folder."
        UseMarkdown "use-markdown" "A `use` line names a file in which there is nothing to use: neither a rig file nor a page with a plain fence of rigs."
    }

    /// Articles are filled.
    Articles {
        MarkerUnread "marker-unread" "A marker in an article, a comment that opens with `rig:`, asks for nothing that there is."
        MarkerRig "marker-rig" "A marker names a rig that neither its page nor a file that the page uses has."
        MarkerPart "marker-part" "A marker names a part that its rig has not."
        MarkerMeasure "marker-measure" "A marker names no measure of the rig or part."
        MarkerUnit "marker-unit" "A marker names a unit that does not fit its measure."
        MarkerUnknown "marker-unknown" "A marker asks for what the rig leaves unsaid, so that it cannot be told."
        MarkerFile "marker-file" "A marker draws into a file that is no SVG below its page's folder, or into that of another picture."
        MarkerUnclosed "marker-unclosed" "A marker is not closed by an `end`."
        MarkerEndAlone "marker-end-alone" "An `end` closes no marker."
        MarkerNested "marker-nested" "A marker stands inside what another fills."
        MarkerNotAlone "marker-not-alone" "A marker that fills lines of its own shares its line with text."
        MarkerHoldsText "marker-holds-text" "Between two markers stands what snell did not put there; it is kept, and the place is not filled."
        MarkerAtHead "marker-at-head" "A marker in running text begins its line, which Markdown then takes for HTML."
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    #[test]
    fn names_are_plain_words_and_stand_once() {
        let names: BTreeSet<&str> = Code::ALL.iter().map(|code| code.name()).collect();
        assert_eq!(names.len(), Code::ALL.len());
        for code in Code::ALL {
            let name = code.name();
            assert!(
                name.bytes().all(|byte| byte == b'-' || byte.is_ascii_lowercase()),
                "{name}"
            );
            assert!(code.about().ends_with('.'), "{name}");
            assert_eq!(Code::named(name), Some(*code));
        }
    }
}
