//! A place of a hanging leader.

/// Where a leader comes to the height of the tip.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Place {
    /// From the entry, m.
    pub along: f64,
    pub across: f64,
    /// Line out between water and tip, m.
    pub length: f64,
    /// What it pulls the tip with: along, across and up, N.
    pub pull: [f64; 3],
}
