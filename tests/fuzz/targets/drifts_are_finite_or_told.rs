//! See the law of this name in `tests/support/laws`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| snell_fuzz::hold("drifts_are_finite_or_told", bytes));
