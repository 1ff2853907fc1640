//! The names of the faults of rules and `allow` lines, each with what it means.

pub(crate) const ALLOW_IDLE: &str = "allow-idle";
pub(crate) const RULE_UNKNOWN: &str = "rule-unknown";
pub(crate) const RULE_INCOMPLETE: &str = "rule-incomplete";
pub(crate) const SAY_BROKEN: &str = "say-broken";
pub(crate) const BOOK_LOOP: &str = "rulebook-loop";

/// Every fault of this crate with its meaning.
pub const FAULTS: &[(&str, &str)] = &[
    (ALLOW_IDLE, "An `allow` silences nothing on its rig."),
    (
        RULE_UNKNOWN,
        "A line names a rule, or a rule's limit, that is not in sight.",
    ),
    (RULE_INCOMPLETE, "A rule lacks what it would ask for or say."),
    (SAY_BROKEN, "A measure in the braces of a `say` cannot be read."),
    (BOOK_LOOP, "Rulebooks take one another in, in a circle."),
];
