//! Figures are the same on every machine, so no power or logarithm comes from the platform.

use std::fs;
use std::path::Path;

const PLATFORM: [&str; 22] = [
    ".powf(",
    ".powi(",
    ".ln()",
    ".log10()",
    ".log2()",
    ".log(",
    ".exp()",
    ".exp2()",
    ".sin()",
    ".cos()",
    ".tan()",
    ".asin()",
    ".acos()",
    ".atan()",
    ".atan2(",
    ".sinh()",
    ".cosh()",
    ".tanh()",
    ".asinh()",
    ".cbrt()",
    ".hypot(",
    ".mul_add(",
];

fn sources(folder: &Path, told: &mut Vec<(String, String)>) {
    for entry in fs::read_dir(folder).expect("the folder can be read") {
        let path = entry.expect("an entry can be read").path();
        if path.is_dir() {
            sources(&path, told);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            let text = fs::read_to_string(&path).expect("a source can be read");
            told.push((path.display().to_string(), text));
        }
    }
}

#[test]
fn nothing_asks_the_platform_for_a_power() {
    let mut all = Vec::new();
    sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut all);
    assert!(all.len() > 30, "the sources are there");
    // A test may compare with the platform.
    let tests =
        |name: &str| name.ends_with("tests.rs") || name.contains("/tests/") || name.ends_with("refined.rs");
    for (name, text) in all.iter().filter(|(name, _)| !tests(name)) {
        let own = text.split("#[cfg(test)]").next().unwrap_or_default();
        for word in PLATFORM {
            assert!(!own.contains(word), "{name} takes {word} from the platform");
        }
    }
}
