//! A picture of an article as the bytes of its file, by the file's ending, and
//! whether a file is one of ours: over anything else nothing is drawn.

use crate::page::svg;
use snell_article::Picture;
use snell_picture::write::Unpainted;

/// What every SVG of snell begins with; its class ends there, or says that it is for paper.
const OURS: &str = "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"snell";
/// Where the first chunk of a PNG ends, and others may follow. Source: PNG, third edition, 5.2 and 11.2.1.
const HEADER: usize = 8 + 4 + 4 + 13 + 4;
/// A chunk that says what painted the picture, its type and its text. Source: PNG, third edition, 11.3.3.
const PAINTER: &[u8] = b"tEXtSoftware\0snell";

/// The bytes of a picture.
///
/// # Errors
/// It cannot be painted.
pub fn bytes(picture: &Picture) -> Result<Vec<u8>, Unpainted> {
    if is_png(&picture.file) {
        Ok(signed(&snell_picture::write::png(&picture.scene)?))
    } else {
        Ok(svg(picture).into_bytes())
    }
}

fn is_png(file: &str) -> bool {
    let ending = file.rsplit('.').next().unwrap_or_default();
    ending.eq_ignore_ascii_case("png")
}

/// Whether a file's bytes are a picture of snell's.
pub fn is_ours(bytes: &[u8]) -> bool {
    let chunk = bytes.get(HEADER + 4..HEADER + 4 + PAINTER.len());
    let class = bytes.strip_prefix(OURS.as_bytes());
    class.is_some_and(|rest| rest.starts_with(b"\"") || rest.starts_with(b" ")) || chunk == Some(PAINTER)
}

/// A PNG that says what painted it.
fn signed(png: &[u8]) -> Vec<u8> {
    let (header, rest) = png.split_at(HEADER.min(png.len()));
    // The length of a chunk counts its text, and not its type.
    let length = (PAINTER.len() - 4) as u32;
    let sum = crc32fast::hash(PAINTER);
    [header, &length.to_be_bytes(), PAINTER, &sum.to_be_bytes(), rest].concat()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_our_own_are_ours() {
        let png = [&b"\x89PNG\r\n\x1a\n"[..], &[0; 25], b"rest"].concat();
        let signed = signed(&png);
        assert!(is_ours(&signed) && signed.ends_with(b"rest"));
        assert!(!is_ours(&png) && !is_ours(b"<svg>mine</svg>") && !is_ours(b""));
    }
}
