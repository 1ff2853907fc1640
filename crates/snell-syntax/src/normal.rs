//! Letters made alike: by the tables of a library, and in a browser by the
//! browser's own, which need not be fetched with a page.

#[cfg(all(target_arch = "wasm32", feature = "browser"))]
pub use of_browser::{composed, is_mark};
#[cfg(not(all(target_arch = "wasm32", feature = "browser")))]
pub use of_tables::{composed, is_mark};

#[cfg(not(all(target_arch = "wasm32", feature = "browser")))]
mod of_tables {
    use unicode_normalization::UnicodeNormalization;
    use unicode_normalization::char::is_combining_mark;

    /// A text in Unicode's normalization form C.
    pub fn composed(text: &str) -> String {
        text.nfc().collect()
    }

    /// Whether it belongs to the letter before it, as an accent does.
    pub fn is_mark(letter: char) -> bool {
        is_combining_mark(letter)
    }
}

#[cfg(all(target_arch = "wasm32", feature = "browser"))]
mod of_browser {
    use js_sys::{JsString, RegExp};

    pub fn composed(text: &str) -> String {
        JsString::from(text).normalize("NFC").into()
    }

    pub fn is_mark(letter: char) -> bool {
        !letter.is_ascii() && RegExp::new(r"^\p{M}$", "u").test(letter.encode_utf8(&mut [0; 4]))
    }
}
