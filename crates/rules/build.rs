//! Lists the pages of `book/`, so that a new rule is a new page and nothing else.

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
            let (folder, name) = (stem(&folder), stem(&page));
            writeln!(list, "    ({folder:?}, {name:?}, include_str!({:?})),", page.display()).map_err(io::Error::other)?;
        }
    }
    list.push_str("]\n");
    let out = PathBuf::from(env::var("OUT_DIR").map_err(io::Error::other)?);
    fs::write(out.join("pages.rs"), list)
}

fn sorted(folder: &Path) -> io::Result<Vec<PathBuf>> {
    let entries = fs::read_dir(folder)?.map(|entry| entry.map(|entry| entry.path()));
    let mut paths = entries.collect::<io::Result<Vec<_>>>()?;
    paths.sort();
    Ok(paths)
}

fn stem(path: &Path) -> String {
    path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default()
}
