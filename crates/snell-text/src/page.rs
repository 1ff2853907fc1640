//! A page read once: what it holds of rigs, by the markup that it is written in.

use crate::asciidoc;
use crate::found::{Fence, Page};
use crate::markdown;
use crate::mask::Dialect;
use crate::restructured;

/// What a page is written in.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Markup {
    /// Markdown of CommonMark, GitHub, MyST, mdBook and their like.
    Markdown,
    /// Markdown with components.
    Mdx,
    /// Markdown of Quarto and R Markdown, which goes through pandoc.
    Quarto,
    /// AsciiDoc.
    AsciiDoc,
    /// reStructuredText.
    Restructured,
}

impl Page {
    /// Reads a page.
    pub fn read(text: &str, markup: Markup) -> Self {
        match markup {
            Markup::Markdown => markdown::read(text, Dialect::Common),
            Markup::Mdx | Markup::Quarto => markdown::read(text, Dialect::InTags),
            Markup::AsciiDoc => asciidoc::read(text),
            Markup::Restructured => restructured::read(text),
        }
    }
}

/// The fences of rigs of a Markdown page.
pub fn fences(page: &str) -> Vec<Fence> {
    Page::read(page, Markup::Markdown).fences
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::found::WhyUnread;
    use crate::info::FenceTag;

    fn read(page: &str) -> Vec<(FenceTag, Vec<&str>)> {
        let cut = |fence: Fence| {
            let lines = fence.lines.iter().map(|line| line.of(page)).collect();
            (fence.tag, lines)
        };
        fences(page).into_iter().map(cut).collect()
    }

    #[test]
    fn only_fences_tagged_rig() {
        let page =
            "# A\n```rig\nrig a\n\n  tippet 1 m\n```\n```rust\nfn a() {}\n```\n~~~ rig alone\nrig b\n~~~\n";
        assert_eq!(
            read(page),
            [
                (FenceTag::Shared, vec!["rig a", "", "  tippet 1 m"]),
                (FenceTag::Alone, vec!["rig b"]),
            ]
        );
    }

    #[test]
    fn the_margin_of_a_list_or_quote_is_the_fences_own() {
        let page = "- one\n\n  ```rig\n  rig a\n    tippet 1 m\n  ```\n\n> ```rig bad\n> rig b\n>   tippet 2 m\n> ```\n";
        assert_eq!(
            read(page),
            [
                (FenceTag::Shared, vec!["rig a", "  tippet 1 m"]),
                (FenceTag::Bad, vec!["rig b", "  tippet 2 m"]),
            ]
        );
    }

    #[test]
    fn line_ends_front_matter_and_open_fences() {
        let page = "---\ntitle: ```rig\n---\r\n```rig good\r\nrig a\r\n  tippet 1 m\r\n```\r\n";
        assert_eq!(read(page), [(FenceTag::Good, vec!["rig a", "  tippet 1 m"])]);
        assert_eq!(
            read("```rig\nrig a\n  tippet"),
            [(FenceTag::Shared, vec!["rig a", "  tippet"])]
        );
        assert_eq!(read("```rig\n```\n"), [(FenceTag::Shared, vec![])]);
        assert_eq!(
            read("\u{feff}```rig\nrig a\n```\n"),
            [(FenceTag::Shared, vec!["rig a"])]
        );
    }

    #[test]
    fn fences_in_every_surrounding() {
        let fence = "```rig\nrig a\n  tippet 1 m\n```\n";
        let indented = |by: &str| {
            fence
                .lines()
                .map(|line| format!("{by}{line}\n"))
                .collect::<String>()
        };
        let four = indented("    ");
        for page in [
            format!("text[^1]\n\n[^1]: A note.\n\n{four}"),
            format!("Term\n\n:   It is so.\n\n{four}"),
            format!("!!! note \"A title\"\n\n{four}"),
            format!("??? tip\n{four}"),
            format!("=== \"Metric\"\n\n    text\n\n{four}"),
            format!("> [!NOTE]\n{}", indented("> ")),
            format!(":::{{note}}\n{fence}:::\n"),
            format!("::: warning\n{fence}:::\n"),
            format!("::: {{.callout-note}}\n\n{fence}\n:::\n"),
            format!("````{{admonition}} A title\n:class: tip\n{fence}````\n"),
            ":::{code-block} rig\n:name: low\nrig a\n  tippet 1 m\n:::\n".to_owned(),
            "```{code-block} rig\n---\nname: low\n---\nrig a\n  tippet 1 m\n```\n".to_owned(),
            "```{eval-rst}\n.. code-block:: rig\n\n   rig a\n     tippet 1 m\n```\n".to_owned(),
            format!("<details>\n<summary>A</summary>\n\n{fence}\n</details>\n"),
            "1. a\n   > - ~~~~ {.rig}\n   >   rig a\n   >     tippet 1 m\n   >   ~~~~\n".to_owned(),
        ] {
            assert_eq!(
                read(&page),
                [(FenceTag::Shared, vec!["rig a", "  tippet 1 m"])],
                "{page}"
            );
            assert_eq!(Page::read(&page, Markup::Markdown).unread, [], "{page}");
        }
    }

    #[test]
    fn tags_hold_markdown_where_their_renderer_reads_it() {
        let page =
            "<Tabs>\n<Tab title=\"a\">\n```rig\nrig a\n\n  tippet 1 m\n```\n</Tab>\n</Tabs>\n\nMore.\n";
        for (markup, fences) in [(Markup::Markdown, 0), (Markup::Mdx, 1), (Markup::Quarto, 1)] {
            let read = Page::read(page, markup);
            assert_eq!(
                (read.fences.len(), read.unread.len()),
                (fences, 1 - fences),
                "{markup:?}"
            );
        }
    }

    #[test]
    fn what_looks_like_a_fence_and_is_none_is_told() {
        let told = |page: &str| {
            let unread = Page::read(page, Markup::Markdown).unread.into_iter();
            unread
                .map(|one| (one.line.of(page).to_owned(), one.why))
                .collect::<Vec<_>>()
        };
        let one = |line: &str, why| vec![(line.to_owned(), why)];
        assert_eq!(told("```rigs\nrig a\n```\n"), one("```rigs", WhyUnread::Words));
        assert_eq!(
            told("```\nrig a\n  tippet 1 m\n```\n"),
            one("rig a", WhyUnread::NoWords)
        );
        assert_eq!(
            told("<div>\n```rig\nrig a\n```\n</div>\n"),
            one("```rig", WhyUnread::Place)
        );
        assert_eq!(
            told("text\n\n    ```rig\n    rig a\n    ```\n"),
            one("```rig", WhyUnread::Place)
        );
        for page in [
            "````markdown\n```rig\nrig a\n```\n````\n",
            "```\nrig\n```\n",
            "<!--\n```rig\nrig a\n```\n-->\n",
            "Write `rig` behind ```` ```rig ````.\n",
        ] {
            assert_eq!(told(page), [], "{page}");
        }
    }
}
