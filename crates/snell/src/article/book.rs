//! The chapters of a book as mdBook hands them to a preprocessor: JSON of a
//! context and a book, of which only the chapters' texts are touched.
//!
//! Read as plain JSON rather than through mdBook's own crate, which would bind
//! the program to one version of the book program and bring half of it along.
//! Source: mdBook's documentation, "Preprocessors" under "For Developers";
//! chapters lie in `items` since 0.5 and in `sections` before.

use serde_json::Value;
use std::path::{Path, PathBuf};

/// A chapter with a text.
pub struct Chapter<'b> {
    /// Its file.
    pub path: PathBuf,
    /// Its text.
    pub content: &'b mut Value,
}

/// The folder that the paths of a book's chapters count from.
pub fn source(context: &Value) -> PathBuf {
    let root = Path::new(context["root"].as_str().unwrap_or("."));
    root.join(context["config"]["book"]["src"].as_str().unwrap_or("src"))
}

/// What makes the rigs of a chapter live on its page: the script of the folder that the book's `live` names. Only pages of
/// HTML take one.
///
/// # Errors
/// What is named is no folder within the book.
pub fn live(context: &Value) -> Result<Option<Live<'_>>, String> {
    let Some(folder) = context["config"]["preprocessor"]["snell"].get("live") else {
        return Ok(None);
    };
    let plain = |part: &str| {
        let sign = |sign: char| sign.is_ascii_alphanumeric() || matches!(sign, '-' | '_' | '.');
        !part.is_empty() && part != ".." && part.chars().all(sign)
    };
    match folder.as_str() {
        Some(folder) if folder.split('/').all(plain) => {
            Ok((context["renderer"] == "html").then_some(Live(folder)))
        }
        Some(_) | None => Err(format!(
            "its `live` says {folder}, and should name a folder of the book by letters, figures and hyphens"
        )),
    }
}

/// The folder in a book's source that holds what makes rigs live.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Live<'c>(&'c str);

impl Live<'_> {
    /// The lines that a chapter ends with; `path` is its file below the folder of the book's source, and `given` the line that
    /// holds the files which it uses.
    pub fn script(self, path: &Path, given: Option<&str>) -> String {
        let up = "../".repeat(path.components().count().saturating_sub(1));
        let given = given.unwrap_or_default();
        format!(
            "\n\n{given}<script type=\"module\" src=\"{up}{}/live.js\"></script>\n",
            self.0
        )
    }
}

/// Every chapter that has a text, in order; `None` where this is no book.
pub fn chapters<'b>(book: &'b mut Value, source: &Path) -> Option<Vec<Chapter<'b>>> {
    let book = book.as_object_mut()?;
    let key = if book.contains_key("items") {
        "items"
    } else {
        "sections"
    };
    let mut chapters = Vec::new();
    gather(book.get_mut(key)?.as_array_mut()?, source, &mut chapters);
    Some(chapters)
}

fn gather<'b>(items: &'b mut [Value], source: &Path, chapters: &mut Vec<Chapter<'b>>) {
    for item in items {
        // Separators and titles of parts are no objects of this shape.
        let Some(chapter) = item.get_mut("Chapter").and_then(Value::as_object_mut) else {
            continue;
        };
        let path = ["source_path", "path"]
            .iter()
            .find_map(|key| chapter.get(*key)?.as_str())
            .map(|path| source.join(path));
        let (mut content, mut below) = (None, None);
        for (key, value) in chapter.iter_mut() {
            match key.as_str() {
                "content" => content = Some(value),
                "sub_items" => below = value.as_array_mut(),
                _ => {}
            }
        }
        if let (Some(path), Some(content)) = (path, content) {
            chapters.push(Chapter { path, content });
        }
        if let Some(below) = below {
            gather(below, source, chapters);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn chapters_below_chapters_and_drafts() {
        let chapter = |path: Value, below: Value| json!({"Chapter": {"content": "a", "path": path, "sub_items": below}});
        for key in ["items", "sections"] {
            let mut book = json!({key: [
                chapter(json!("a.md"), json!([chapter(json!("b/c.md"), json!([]))])),
                "Separator",
                {"PartTitle": "Two"},
                chapter(Value::Null, json!([])),
            ]});
            let chapters = chapters(&mut book, Path::new("book/src")).expect("a book");
            let paths: Vec<_> = chapters.iter().map(|one| one.path.clone()).collect();
            assert_eq!(paths, [Path::new("book/src/a.md"), Path::new("book/src/b/c.md")]);
        }
        assert!(chapters(&mut json!([]), Path::new("")).is_none());
    }

    #[test]
    fn rigs_are_live_where_the_book_says_so() {
        let context = |folder: Value, renderer: &str| json!({ "renderer": renderer, "config": { "preprocessor": { "snell": { "live": folder } } } });
        let html = context(json!("my/rigs"), "html");
        let script = live(&html)
            .expect("it is a folder")
            .expect("it is HTML")
            .script(Path::new("two/beck.md"), None);
        assert!(script.contains("src=\"../my/rigs/live.js\""), "{script}");
        assert_eq!(live(&context(json!("rigs"), "epub")), Ok(None));
        assert_eq!(live(&json!({})), Ok(None));
        for folder in ["", "../rigs", "/rigs", "a\"b", "https://a.example"] {
            assert!(live(&context(json!(folder), "html")).is_err(), "{folder}");
        }
        assert!(live(&context(json!(true), "html")).is_err());
    }
}
