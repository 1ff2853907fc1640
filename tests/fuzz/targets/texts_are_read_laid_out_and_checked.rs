//! See the law of this name in `tests/support/laws`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| snell_fuzz::hold("texts_are_read_laid_out_and_checked", bytes));
