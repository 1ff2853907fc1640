//! See the law of this name in `tests/support/laws`.
#![no_main]

libfuzzer_sys::fuzz_target!(|bytes: &[u8]| snell_fuzz::hold("messages_come_in_whole_or_are_refused", bytes));
