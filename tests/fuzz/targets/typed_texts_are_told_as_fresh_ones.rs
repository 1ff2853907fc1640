//! See the law of this name in `tests/support/laws`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| snell_fuzz::hold("typed_texts_are_told_as_fresh_ones", bytes));
