//! The language server as an editor meets it: through the real program on its
//! standard input and output, and the desk behind it.

#![allow(clippy::unwrap_used, reason = "a test may stop at what it did not expect")]

mod session;
mod typing;

/// How many random scripts each property runs; raised for a long run.
fn scripts(usual: u64) -> u64 {
    let raised = std::env::var("SNELL_SCRIPTS").ok();
    raised.map_or(usual, |number| number.parse().expect("SNELL_SCRIPTS is a number"))
}
