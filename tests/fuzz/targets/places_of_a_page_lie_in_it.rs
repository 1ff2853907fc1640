//! See the law of this name in `tests/support/laws`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| snell_fuzz::hold("places_of_a_page_lie_in_it", bytes));
