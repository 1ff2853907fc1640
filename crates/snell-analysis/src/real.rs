//! Where a file really is. This path is the key by which texts are known, so it must come out alike however somebody wrote
//! it: an editor's `c:\beck\low.rig`, a link, and what Windows answers, `\\?\C:\beck\low.rig`, are one file.

use std::io;
use std::path::{Path, PathBuf};

/// A path with every link followed; equal for equal files. On Windows it is a plain one, which other programs take too.
///
/// # Errors
/// The file is not there, or the system says no.
pub fn real(path: &Path) -> io::Result<PathBuf> {
    let real = path.canonicalize()?;
    if !cfg!(windows) {
        return Ok(real);
    }
    let plain = real.to_str().and_then(plain);
    Ok(plain.map_or(real, PathBuf::from))
}

/// What stands before a path of Windows that is taken letter by letter. Source: Microsoft, "Naming Files, Paths, and Namespaces".
const VERBATIM: &str = r"\\?\";

/// Names of devices, which a plain path cannot have; from the same page.
const DEVICES: &[&str] = &["CON", "PRN", "AUX", "NUL"];

/// The plain path that means the same as a verbatim one of Windows; none where no plain path does. The letter of a drive is
/// a capital.
pub fn plain(path: &str) -> Option<String> {
    let rest = path.strip_prefix(VERBATIM)?;
    if let Some(share) = rest.strip_prefix(r"UNC\") {
        return survives(share).then(|| format!(r"\\{share}"));
    }
    let mut letters = rest.chars();
    let drive = letters.next().filter(char::is_ascii_alphabetic)?;
    let below = letters.as_str().strip_prefix(':')?;
    (below.starts_with('\\') && survives(below)).then(|| format!("{}:{below}", drive.to_ascii_uppercase()))
}

/// Whether Windows leaves every name of a plain path as it is.
fn survives(path: &str) -> bool {
    path.split('\\').all(|name| {
        let stem = name.split('.').next().unwrap_or(name).trim_end();
        let numbered = stem
            .strip_suffix(|last: char| last.is_ascii_digit())
            .is_some_and(|port| port.eq_ignore_ascii_case("COM") || port.eq_ignore_ascii_case("LPT"));
        let device = DEVICES.iter().any(|device| stem.eq_ignore_ascii_case(device));
        !name.ends_with(['.', ' ']) && !name.contains('/') && !device && !numbered
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_windows_answers_becomes_the_path_that_people_write() {
        for (verbatim, wanted) in [
            (r"\\?\C:\beck\low.rig", r"C:\beck\low.rig"),
            (r"\\?\c:\beck\low.rig", r"C:\beck\low.rig"),
            (r"\\?\C:\", r"C:\"),
            (r"\\?\UNC\valley\notes\low.rig", r"\\valley\notes\low.rig"),
            (r"\\?\C:\beck\console.rig", r"C:\beck\console.rig"),
        ] {
            assert_eq!(plain(verbatim).as_deref(), Some(wanted), "{verbatim}");
        }
    }

    #[test]
    fn a_path_that_would_mean_another_file_stays_verbatim() {
        for path in [
            r"\\?\C:\beck\low.rig.",
            r"\\?\C:\beck \low.rig",
            r"\\?\C:\beck\con.rig",
            r"\\?\C:\beck\Com1.rig",
            r"\\?\UNC\valley\notes\nul",
            r"\\?\Volume{0}\low.rig",
            r"\\?\C:low.rig",
        ] {
            assert_eq!(plain(path), None, "{path}");
        }
    }

    #[test]
    fn other_paths_are_left_alone() {
        for path in ["/beck/low.rig", r"C:\beck\low.rig", r"\\valley\notes\low.rig", ""] {
            assert_eq!(plain(path), None, "{path}");
        }
    }
}
