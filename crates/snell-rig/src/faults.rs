//! The names of the faults of this crate, each with what it means.
//!
//! One table: reports name these, and `why` explains them.

macro_rules! faults {
    ($($constant:ident $name:literal $about:literal)*) => {
        $(pub(crate) const $constant: &str = $name;)*
        /// Every fault of this crate with its meaning.
        pub const FAULTS: &[(&str, &str)] = &[$(($name, $about)),*];
    };
}

faults! {
    UNIT_MISSING "unit-missing" "A number stands without a unit where a quantity is needed."
    UNIT_UNKNOWN "unit-unknown" "The word behind a number is no unit that is known."
    UNIT_WRONG "unit-wrong" "A quantity of one kind stands where another kind is needed, such as a mass for a length."
    DIMENSIONS_DIFFER "dimensions-differ" "Two quantities of different kinds are added or compared."
    SIZE_MARK_MISSING "size-mark-missing" "A hook size or line weight lacks its `#`."
    SIZE_SPACED "size-spaced" "A tippet size is written with a space, so that the X reads as `times`."
    SIZE_TOO_FINE "size-too-fine" "From 9X on labels differ, so a diameter is needed."
    NUMBER_DOUBTFUL "number-doubtful" "A comma may part thousands or be a decimal comma."
    SPREAD_MISPLACED "spread-misplaced" "A spread stands where one value is needed."
    VALUE_MISSING "value-lacking" "A line lacks something that it needs."
    VALUE_LATE "value-late" "A value stands behind another that it should stand before, or is said twice."
    VALUE_MISPLACED "value-misplaced" "A value stands on a line that has no place for it."
    CLAUSE_MISPLACED "clause-misplaced" "A joining word stands on a line that does not take it."
    CLAUSE_TWICE "clause-twice" "A joining word stands twice on one line."
    JOINING_WORD_MISSING "joining-word-missing" "A word such as `of` or `with` is missing."
    TEXT_MISPLACED "text-unwanted" "A text in quotes stands on a line that takes none."
    TEXT_MISSING "text-missing" "A line that says something in quotes lacks its text."
    NAME_UNKNOWN "name-unknown" "A name or word means nothing where it stands."
    NAME_TWICE "name-twice" "One file gives two blocks of a kind the same name."
    NAME_AMBIGUOUS "name-ambiguous" "Two used files both define a name that is wanted."
    NAME_TAKEN "name-taken" "A let or label has the name of a measure or of a kind of part."
    SHIPPED_REPLACED "shipped-replaced" "A block takes the place of one that ships with the tool."
    KEY_UNKNOWN "key-unknown" "A line opens with a word that means nothing in its block."
    LINE_TWICE "line-twice" "A line that may stand once stands twice in a block."
    LINE_MISSING "line-missing" "A block lacks a line that it needs."
    FROM_LOOP "from-loop" "Blocks are made from one another in a circle."
    FROM_LONG "from-long" "A block is made from another through too many steps."
    LOOP "loop" "A value needs itself to be computed."
    LENGTH_NOT_POSITIVE "length-not-positive" "A part's length comes out as nothing or less."
    DIVIDED_BY_NOTHING "divided-by-nothing" "A division is by zero, or a number grows past all bounds."
    FUNCTION_UNKNOWN "function-unknown" "There is no such function."
    NOT_A_VALUE "not-a-value" "A name stands for a word or a thing where a value is needed."
    PART_AFTER_POINT "part-after-point" "A part follows the point, which ends the rig."
    PART_UNATTACHED "part-unattached" "A part has no line above or below to sit on."
    KNOT_TWICE "knot-twice" "One join has two knots or two rings."
    PART_IN_DERIVED "part-in-derived" "A rig made from another is changed by edits, not by parts of its own."
    EDIT_WITHOUT_BASE "edit-without-base" "An edit stands in a rig that is not made from another."
    EDIT_TWICE "edit-twice" "Two edits have one target."
    TARGET_UNKNOWN "target-unknown" "An edit's target is not in the base rig."
    VALUE_DEEP "value-deep" "A value hangs on too many others, one behind the other."
    FAULTS_LEFT_OUT "findings-left-out" "A text has more faults than are told at once."
    EXPECT "expect" "A claim of the rig does not hold."
    EXPECT_UNKNOWN "expect-unknown" "A claim cannot be judged, because something is unsaid."
    DAY_UNKNOWN "day-unknown" "An outing names a day that the calendar does not have."
    COUNT_NOT_WHOLE "count-not-whole" "An outing counts fish in something else than whole numbers."
    FLY_NOT_ON_RIG "fly-not-on-rig" "An outing names a fly that its rig did not carry."
    WORD_MISPLACED "word-unasked" "A condition asks for a word of something that has none."
}
