//! What a live page of a book is given beside its blocks: where it stands, what
//! it says of other files outside of its blocks, and those files.
//!
//! It is one line of JSON in an element that no browser runs.

use serde::Serialize;
use snell_analysis::{Document, Notebook, without_turns};
use snell_finding::Limit;
use snell_text::TextId;
use std::collections::BTreeMap;
use std::path::{Component, Path, PathBuf};

/// What the element of a live page reads.
#[derive(Serialize)]
struct Given {
    page: String,
    /// The words of its comments that use other files.
    uses: Vec<String>,
    files: BTreeMap<String, String>,
}

/// The line that a page of a book holds; nothing where it uses no file, or more than a page is given.
pub fn given(notebook: &Notebook, page: TextId) -> Option<String> {
    let (own, others): (Vec<&Document>, Vec<&Document>) = notebook
        .documents()
        .iter()
        .partition(|document| document.id == page);
    let own = own.first()?;
    let size: usize = others.iter().map(|document| document.text.len()).sum();
    if others.is_empty() || size > Limit::LiveFiles.count() {
        return None;
    }
    let paths: Vec<PathBuf> = [*own]
        .iter()
        .chain(&others)
        .map(|document| without_turns(&document.path))
        .collect();
    let above = shared_folder(&paths);
    let below = |path: &Path| forward(path.strip_prefix(&above).unwrap_or(path));
    let texts = others.iter().map(|document| document.text.to_string());
    let given = Given {
        page: below(&paths[0]),
        uses: own
            .use_markers()
            .into_iter()
            .flatten()
            .map(|words| words.of(&own.text).trim().to_owned())
            .collect(),
        files: paths[1..].iter().map(|path| below(path)).zip(texts).collect(),
    };
    // Nothing in it may end the element.
    let told = serde_json::to_string(&given).ok()?.replace('<', "\\u003c");
    Some(format!(
        "<script type=\"application/json\" data-rig-files>{told}</script>\n"
    ))
}

/// The deepest folder that all files lie in: what stands above it is nobody's business.
fn shared_folder(paths: &[PathBuf]) -> PathBuf {
    let mut folders = paths.iter().map(|path| path.parent().unwrap_or(Path::new("")));
    let first = folders.next().unwrap_or(Path::new("")).to_owned();
    folders.fold(first, |shared, folder| {
        let same = shared
            .components()
            .zip(folder.components())
            .take_while(|(one, other)| one == other);
        same.map(|(part, _)| part).collect()
    })
}

fn forward(path: &Path) -> String {
    let parts = path.components().filter_map(|part| match part {
        Component::Normal(name) => Some(name.to_string_lossy()),
        Component::Prefix(_) | Component::RootDir | Component::CurDir | Component::ParentDir => None,
    });
    parts.collect::<Vec<_>>().join("/")
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::Value;
    use snell_analysis::{Kind, LocalDisk};

    const CHAPTER: &str =
        "<!-- rig: use \"../flies.rig\" -->\n\n```rig\nuse \"two/more.rig\"\nrig low\n  point slate\n```\n";

    fn page(flies: &str) -> Option<String> {
        let folder = tempfile::tempdir().expect("there is room");
        let write = |name: &str, text: &str| {
            let path = folder.path().join(name);
            std::fs::create_dir_all(path.parent().expect("it has one")).expect("there is room");
            std::fs::write(path, text).expect("there is room");
        };
        write(".git/HEAD", "");
        write("book/flies.rig", flies);
        write("book/src/two/more.rig", "fly slate\n  hook #14\n");
        let path = folder.path().join("book/src/beck.md");
        let notebook = Notebook::of_text(&path, Kind::MARKDOWN, CHAPTER.to_owned(), &LocalDisk);
        given(&notebook, TextId(0))
    }

    #[test]
    fn a_page_is_given_the_files_that_it_uses_by_their_paths_from_the_folder_of_all() {
        let line = page("fly shale\n  note \"</script><!-- <b>\"\n").expect("it uses two");
        assert_eq!(line.matches('<').count(), 2, "{line}");
        let json = &line[line.find('{').expect("it is JSON")..=line.rfind('}').expect("it is JSON")];
        let given: Value = serde_json::from_str(json).expect("it is JSON");
        assert_eq!(given["page"], "src/beck.md");
        assert_eq!(given["uses"][0], "use \"../flies.rig\"");
        assert_eq!(
            given["files"]["flies.rig"],
            "fly shale\n  note \"</script><!-- <b>\"\n"
        );
        assert_eq!(given["files"]["src/two/more.rig"], "fly slate\n  hook #14\n");
    }

    #[test]
    fn files_that_are_more_than_a_page_is_given_are_left_out() {
        assert!(page(&"// a long story\n".repeat(Limit::LiveFiles.count() / 16 + 1)).is_none());
    }

    #[test]
    fn a_page_that_uses_none_is_given_nothing() {
        let notebook = Notebook::of_text(
            Path::new("a.md"),
            Kind::MARKDOWN,
            "```rig\nrig a\n```\n".to_owned(),
            &LocalDisk,
        );
        assert_eq!(given(&notebook, TextId(0)), None);
    }
}
