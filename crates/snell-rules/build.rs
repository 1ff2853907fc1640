//! Lists the pages of `book/`, so that a new rule is a new page and nothing else.
//! Which lines of a page define its rule is found here, once, and not at every start.

use snell_text::FenceTag;
use std::fmt::Write;
use std::path::{Path, PathBuf};
use std::{env, fs, io};

fn main() -> io::Result<()> {
    let root = PathBuf::from(env::var("CARGO_MANIFEST_DIR").map_err(io::Error::other)?).join("book");
    println!("cargo::rerun-if-changed={}", root.display());
    let mut list = String::from("&[\n");
    for folder in sorted(&root)? {
        println!("cargo::rerun-if-changed={}", folder.display());
        for page in sorted(&folder)? {
            println!("cargo::rerun-if-changed={}", page.display());
            let (folder, name, path) = (stem(&folder), stem(&page), page.display().to_string());
            let lines = shared_lines(&fs::read_to_string(&page)?);
            writeln!(
                list,
                "    ({folder:?}, {name:?}, include_str!({path:?}), &{lines:?}),"
            )
            .map_err(io::Error::other)?;
        }
    }
    list.push_str("]\n");
    let out = PathBuf::from(env::var("OUT_DIR").map_err(io::Error::other)?);
    fs::write(out.join("pages.rs"), list)
}

/// The lines of a page's plain fences, as byte offsets; a fence ends with an empty pair.
fn shared_lines(page: &str) -> Vec<(u32, u32)> {
    let shared = snell_text::fences(page)
        .into_iter()
        .filter(|fence| fence.tag == FenceTag::Shared);
    let lines = |fence: snell_text::Fence| {
        let spans = fence.lines.into_iter().map(|span| (span.start, span.end));
        spans.chain([(0, 0)]).collect::<Vec<_>>()
    };
    shared.flat_map(lines).collect()
}

fn sorted(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let entries = fs::read_dir(folder)?.map(|entry| entry.map(|entry| entry.path()));
    let mut paths = entries.collect::<io::Result<Vec<_>>>()?;
    paths.sort();
    Ok(paths)
}

fn stem(path: &Path) -> String {
    path.file_stem()
        .map(|stem| stem.to_string_lossy().into_owned())
        .unwrap_or_default()
}
