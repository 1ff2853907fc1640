//! Where a file lies below the file or folder that was asked for.

use std::path::Path;

/// The path of a file below a root; the whole path where it lies elsewhere.
pub(super) fn place<'f>(file: &'f str, root: &Path) -> &'f Path {
    let file = Path::new(file);
    file.strip_prefix(root).unwrap_or(file)
}
