//! A rig as a piece of HTML to put into a page: the picture, which is light or
//! dark with its page, a caption, the table of parts, and the rig's text to copy,
//! which `snell` reads back out of the page.

use super::Sheet;
use super::html::{escaped, table};

/// What a piece is made of.
pub struct Fragment<'f> {
    /// The rig.
    pub sheet: &'f Sheet,
    /// Its picture as SVG, where it has one.
    pub picture: Option<&'f str>,
    /// What stands below the picture.
    pub caption: &'f str,
    /// The rig's own lines, and those of all that it uses.
    pub text: &'f str,
}

/// Writes a piece.
pub fn write(fragment: &Fragment<'_>) -> String {
    let figure = fragment.picture.map(|picture| {
        let caption = escaped(fragment.caption);
        format!("<figure>\n{picture}<figcaption>{caption}</figcaption>\n</figure>\n")
    });
    format!(
        "<section class=\"snell-rig\">\n{}{}<details>\n<summary>The rig as text, to copy</summary>\n\
         <pre class=\"rig alone\"><code class=\"language-rig\">{}</code></pre>\n</details>\n</section>\n",
        figure.unwrap_or_default(),
        table(fragment.sheet),
        fragment
            .text
            .lines()
            .map(|line| format!("{}\n", escaped(line)))
            .collect::<String>(),
    )
}
