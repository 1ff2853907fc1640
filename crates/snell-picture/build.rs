//! Makes the fonts that painted pictures carry, out of DejaVu Sans: outlines, widths, and which letter has which glyph. What
//! fits letters to the dots of a screen, and what joins them, is never read here, and is a third of the font.
//!
//! The layout of a font is that of the OpenType specification, chapters "Font file", "glyf" and "loca".

fn main() {
    println!("cargo::rerun-if-changed=build.rs");
    #[cfg(feature = "png")]
    fonts::write();
}

#[cfg(feature = "png")]
mod fonts {
    use std::collections::BTreeSet;
    use std::path::Path;
    use ttf_parser::{Face, RawFace, Tag};

    /// Tables that are taken as they are.
    const WHOLE: [&[u8; 4]; 4] = [b"cmap", b"hhea", b"hmtx", b"maxp"];

    pub fn write() {
        let folder = std::env::var_os("OUT_DIR").expect("cargo names a folder");
        for (name, font) in [
            ("regular.ttf", dejavu::sans::regular()),
            ("bold.ttf", dejavu::sans::bold()),
        ] {
            let path = Path::new(&folder).join(name);
            let slim = slim(font).expect("DejaVu Sans has every table that a font must have");
            std::fs::write(&path, slim).unwrap_or_else(|why| panic!("{}: {why}", path.display()));
        }
    }

    fn slim(font: &[u8]) -> Option<Vec<u8>> {
        let raw = RawFace::parse(font, 0).ok()?;
        let table = |name| raw.table(Tag::from_bytes(name));
        let used = used(&Face::parse(font, 0).ok()?, &glyphs(&raw)?);
        let (mut glyf, mut loca) = (Vec::new(), Vec::new());
        for (number, glyph) in glyphs(&raw)?.into_iter().enumerate() {
            loca.extend(u32::try_from(glyf.len()).ok()?.to_be_bytes());
            if used.contains(&number) {
                glyf.extend(without_instructions(glyph));
                glyf.resize(glyf.len().next_multiple_of(4), 0);
            }
        }
        loca.extend(u32::try_from(glyf.len()).ok()?.to_be_bytes());
        let mut head = table(b"head")?.to_vec();
        // The offsets of `loca` are written long.
        head[50..52].copy_from_slice(&[0, 1]);
        let mut tables = vec![(b"glyf", glyf), (b"head", head), (b"loca", loca)];
        for name in WHOLE {
            tables.push((name, table(name)?.to_vec()));
        }
        tables.sort();
        Some(packed(&tables))
    }

    /// A font of its tables. Sums over them are for what copies fonts, and stay empty.
    fn packed(tables: &[(&[u8; 4], Vec<u8>)]) -> Vec<u8> {
        let number = tables.len() as u16;
        let mut font = vec![0, 1, 0, 0];
        // How a search by halves would begin, which nothing needs that reads them all.
        for word in [number, 0, 0, 0] {
            font.extend(word.to_be_bytes());
        }
        let mut at = font.len() + 16 * tables.len();
        for (name, table) in tables {
            font.extend(*name);
            for word in [0, at as u32, table.len() as u32] {
                font.extend(word.to_be_bytes());
            }
            at += table.len().next_multiple_of(4);
        }
        for (_, table) in tables {
            font.extend(table);
            font.resize(font.len().next_multiple_of(4), 0);
        }
        font
    }

    /// The outlines by their numbers, each as it stands in the font.
    fn glyphs<'f>(raw: &RawFace<'f>) -> Option<Vec<&'f [u8]>> {
        let table = |name| raw.table(Tag::from_bytes(name));
        let (glyf, loca) = (table(b"glyf")?, table(b"loca")?);
        let offsets: Vec<usize> = match word(table(b"head")?, 50) {
            0 => loca.chunks_exact(2).map(|short| 2 * word(short, 0)).collect(),
            _ => loca
                .chunks_exact(4)
                .map(|long| (word(long, 0) << 16) + word(long, 2))
                .collect(),
        };
        offsets
            .windows(2)
            .map(|ends| glyf.get(ends[0]..ends[1]))
            .collect()
    }

    /// The glyphs that a letter has, with those that they are put together of, and the one for letters that are lacking.
    fn used(face: &Face<'_>, glyphs: &[&[u8]]) -> BTreeSet<usize> {
        let mut open = vec![0];
        for table in face.tables().cmap.iter().flat_map(|cmap| cmap.subtables) {
            table.codepoints(|letter| {
                open.extend(table.glyph_index(letter).map(|glyph| usize::from(glyph.0)))
            });
        }
        let mut used = BTreeSet::new();
        while let Some(number) = open.pop() {
            if used.insert(number) && is_composite(glyphs[number]) {
                open.extend(Parts::of(glyphs[number]).map(|at| word(glyphs[number], at + 2)));
            }
        }
        used
    }

    /// One that is put together of others counts its contours as less than none.
    fn is_composite(glyph: &[u8]) -> bool {
        glyph.first().is_some_and(|first| *first >= 0x80)
    }

    /// Contours, their ends, the instructions, then the points; or parts, then the instructions.
    fn without_instructions(glyph: &[u8]) -> Vec<u8> {
        if is_composite(glyph) {
            let mut parts = Parts::of(glyph);
            let starts: Vec<usize> = parts.by_ref().collect();
            let mut bare = glyph[..parts.at].to_vec();
            for at in starts {
                bare[at] &= !HAS_INSTRUCTIONS;
            }
            return bare;
        }
        if glyph.is_empty() {
            return Vec::new();
        }
        let length = HEAD + 2 * word(glyph, 0);
        let mut bare = glyph[..length].to_vec();
        bare.extend([0, 0]);
        bare.extend(&glyph[length + 2 + word(glyph, length)..]);
        bare
    }

    /// Number of contours and box.
    const HEAD: usize = 10;
    /// In the upper byte of a part's flags.
    const HAS_INSTRUCTIONS: u8 = 0x01;

    /// Where each part of a composite glyph begins.
    struct Parts<'g> {
        glyph: &'g [u8],
        at: usize,
        more: bool,
    }

    impl<'g> Parts<'g> {
        fn of(glyph: &'g [u8]) -> Self {
            Self {
                glyph,
                at: HEAD,
                more: true,
            }
        }
    }

    impl Iterator for Parts<'_> {
        type Item = usize;

        fn next(&mut self) -> Option<usize> {
            if !self.more {
                return None;
            }
            let (start, flags) = (self.at, word(self.glyph, self.at));
            let has = |flag: usize| flags & flag != 0;
            let place = if has(0x01) { 4 } else { 2 };
            let scale = match () {
                () if has(0x80) => 8,
                () if has(0x40) => 4,
                () if has(0x08) => 2,
                () => 0,
            };
            self.at += 4 + place + scale;
            self.more = has(0x20);
            Some(start)
        }
    }

    fn word(bytes: &[u8], at: usize) -> usize {
        usize::from(u16::from_be_bytes([bytes[at], bytes[at + 1]]))
    }
}
