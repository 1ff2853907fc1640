//! Fences, markers and lines of any page lie in it, in order and on whole
//! letters, and every place is found again by its line and column.

use snell_text::{Encoding, Fence, LineIndex, Markup, Page, Span, lines, published};

/// A page of any bytes.
pub fn holds(bytes: &[u8]) {
    let page = String::from_utf8_lossy(bytes);
    lines_make_the_page(&page);
    for markup in [
        Markup::Markdown,
        Markup::Quarto,
        Markup::AsciiDoc,
        Markup::Restructured,
    ] {
        let read = Page::read(&page, markup);
        fences_lie_in_order(&page, &read.fences);
        markers_lie_in_order(&page, &read);
        for unread in &read.unread {
            is_whole(&page, unread.line);
        }
    }
    let (text, read) = published(&page);
    fences_lie_in_order(&text, &read.fences);
    places_are_found_again(&page);
    edits_leave_the_index_of_a_fresh_one(&page);
}

fn is_whole(page: &str, span: Span) {
    let (start, end) = (span.start as usize, span.end as usize);
    assert!(start <= end && end <= page.len(), "{span:?} of {}", page.len());
    assert!(
        page.is_char_boundary(start) && page.is_char_boundary(end),
        "{span:?}"
    );
}

fn lines_make_the_page(page: &str) {
    let mut from = 0;
    for line in lines(page) {
        is_whole(page, line);
        assert!(from <= line.start, "{line:?}");
        let between = Span::new(from, line.start).of(page);
        assert!(between.chars().all(is_line_end), "{between:?} is in no line");
        assert!(!line.of(page).contains(is_line_end), "{line:?}");
        from = line.end;
    }
    assert!(page[from as usize..].chars().all(is_line_end));
}

fn is_line_end(letter: char) -> bool {
    letter == '\n' || letter == '\r'
}

fn fences_lie_in_order(page: &str, fences: &[Fence]) {
    let mut from = 0;
    for fence in fences {
        for line in &fence.lines {
            is_whole(page, *line);
            assert!(from <= line.start, "{line:?} comes after {from}");
            assert!(!line.of(page).contains(is_line_end), "{line:?}");
            from = line.end;
        }
    }
}

fn markers_lie_in_order(page: &str, read: &Page) {
    let mut from = 0;
    for marker in &read.markers {
        is_whole(page, marker.comment);
        is_whole(page, marker.words);
        assert!(from <= marker.comment.start && marker.comment.holds(marker.words));
        assert!(marker.comment.of(page).starts_with(['<', '[']));
        from = marker.comment.end;
    }
}

fn places_are_found_again(page: &str) {
    let index = LineIndex::new(page);
    for encoding in [Encoding::Utf8, Encoding::Utf16, Encoding::Utf32] {
        // Among letters of one byte every fifth is enough.
        let asked = page
            .char_indices()
            .enumerate()
            .filter(|(number, (_, letter))| number % 5 == 0 || !letter.is_ascii_graphic());
        for (_, (at, _)) in asked {
            let place = index.position(page, at as u32, encoding);
            // Nobody can point into the middle of one line end.
            let torn = page[..at].ends_with('\r') && page[at..].starts_with('\n');
            let wanted = at - usize::from(torn);
            let found = index.offset(page, place, encoding) as usize;
            assert!(
                found == at || found == wanted,
                "{at} in {encoding:?} is {place:?}, which is {found}"
            );
        }
    }
}

/// Every fifth letter or so is taken out, and a line end put in.
fn edits_leave_the_index_of_a_fresh_one(page: &str) {
    let mut text = page.to_owned();
    let mut index = LineIndex::new(&text);
    let starts: Vec<usize> = page.char_indices().map(|(at, _)| at).collect();
    for at in starts.iter().rev().step_by(5).take(6) {
        let end = at + text[*at..].chars().next().map_or(0, char::len_utf8);
        let new = ["\r\n", "\r", "é", ""][at % 4];
        text.replace_range(*at..end, new);
        index.edited(&text, Span::from(*at..end), new.len() as u32);
        let fresh = LineIndex::new(&text);
        assert_eq!(index.count(), fresh.count(), "{text:?}");
        for line in 0..fresh.count() {
            assert_eq!(index.line(line), fresh.line(line), "{text:?}");
        }
    }
}
