//! Addresses of files (`file:`, RFC 8089) as paths and back, for editors and for logs of findings. Which rules hold is asked
//! for, so that those of Windows can be tested on any system.

use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};

/// Whose paths are meant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum System {
    /// `/beck/low.rig`
    Unix,
    /// `C:\beck\low.rig` and `\\valley\notes\low.rig`
    Windows,
}

impl System {
    /// That of this machine.
    pub const HERE: Self = if cfg!(windows) { Self::Windows } else { Self::Unix };
}

/// Letters of a path that an address takes as they are (RFC 3986, section 3.3), and the strokes between names.
const PATH_LETTERS: &AsciiSet = &NON_ALPHANUMERIC
    .remove(b'-')
    .remove(b'.')
    .remove(b'_')
    .remove(b'~')
    .remove(b'/');

/// The path of a file's address, of its host and its path without percent signs.
pub fn path(host: &str, path: &str, system: System) -> String {
    if system == System::Unix {
        return path.to_owned();
    }
    if !host.is_empty() && !host.eq_ignore_ascii_case("localhost") {
        return format!(r"\\{host}{}", path.replace('/', r"\"));
    }
    let path = path.strip_prefix('/').unwrap_or(path).replace('/', r"\");
    capital(&path)
}

/// Editors differ in how they write the letter of a drive.
fn capital(path: &str) -> String {
    let mut letters = path.chars();
    match letters.next() {
        Some(drive) if letters.as_str().starts_with(':') => {
            format!("{}{}", drive.to_ascii_uppercase(), letters.as_str())
        }
        _ => path.to_owned(),
    }
}

fn encoded(path: &str) -> String {
    utf8_percent_encode(path, PATH_LETTERS).to_string()
}

/// The address of a file seen from the folder that its path begins in (RFC 3986, section 4.2).
pub fn relative(path: &str, system: System) -> String {
    match system {
        System::Unix => encoded(path),
        System::Windows => encoded(&path.replace('\\', "/")),
    }
}

/// The address of a file by its whole path.
pub fn address(path: &str, system: System) -> String {
    if system == System::Unix {
        return format!("file://{}", encoded(path));
    }
    // A verbatim path that has no plain one still is an address: names in it are taken letter by letter anyway.
    let share = path.strip_prefix(r"\\?\UNC\").map(|share| format!(r"\\{share}"));
    let path = share.unwrap_or_else(|| path.strip_prefix(r"\\?\").unwrap_or(path).to_owned());
    match path.strip_prefix(r"\\") {
        Some(share) => format!("file://{}", encoded(&share.replace('\\', "/"))),
        None => format!("file:///{}", encoded(&capital(&path).replace('\\', "/"))),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn addresses_of_windows_are_paths_of_windows() {
        for (host, written, wanted) in [
            ("", "/c:/beck/low.rig", r"C:\beck\low.rig"),
            ("", "/C:/beck/low water.rig", r"C:\beck\low water.rig"),
            ("localhost", "/c:/beck/low.rig", r"C:\beck\low.rig"),
            ("valley", "/notes/low.rig", r"\\valley\notes\low.rig"),
        ] {
            assert_eq!(path(host, written, System::Windows), wanted);
        }
        assert_eq!(path("", "/beck/a:b.rig", System::Unix), "/beck/a:b.rig");
    }

    #[test]
    fn paths_of_windows_are_addresses() {
        for (written, wanted) in [
            (r"C:\beck\low water.rig", "file:///C%3A/beck/low%20water.rig"),
            (r"c:\beck\low.rig", "file:///C%3A/beck/low.rig"),
            (r"\\?\C:\beck\con.rig", "file:///C%3A/beck/con.rig"),
            (r"\\valley\notes\low.rig", "file://valley/notes/low.rig"),
            (r"\\?\UNC\valley\notes\low.rig", "file://valley/notes/low.rig"),
        ] {
            assert_eq!(address(written, System::Windows), wanted);
        }
        assert_eq!(
            address("/beck/höhe 1%.rig", System::Unix),
            "file:///beck/h%C3%B6he%201%25.rig"
        );
    }

    #[test]
    fn a_name_that_looks_like_another_address_is_none() {
        assert_eq!(relative("c:x.rig", System::Unix), "c%3Ax.rig");
        assert_eq!(
            relative(r"my rigs\é.rig", System::Windows),
            "my%20rigs/%C3%A9.rig"
        );
        assert_eq!(relative(r"my\rigs.rig", System::Unix), "my%5Crigs.rig");
    }
}
