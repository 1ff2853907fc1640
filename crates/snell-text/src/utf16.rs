//! Bytes of a text as a browser counts its letters, and back.

/// Where a text's bytes and its units of UTF-16 part: behind each letter that is not ASCII.
#[derive(Clone, Debug, Default)]
pub struct Utf16 {
    /// The byte and the unit behind such a letter, in order.
    behind: Vec<(u32, u32)>,
}

impl Utf16 {
    pub fn new(text: &str) -> Self {
        let mut behind = Vec::new();
        let mut units = 0;
        let mut last = 0;
        for (at, letter) in text.char_indices().filter(|(_, letter)| !letter.is_ascii()) {
            let end = at + letter.len_utf8();
            units += (at - last) as u32 + letter.len_utf16() as u32;
            last = end;
            behind.push((end as u32, units));
        }
        Self { behind }
    }

    /// The unit at a byte, which begins a letter.
    pub fn unit(&self, byte: u32) -> u32 {
        let after = self.behind.partition_point(|(behind, _)| *behind <= byte);
        let before = after.checked_sub(1).map_or((0, 0), |index| self.behind[index]);
        before.1 + (byte - before.0)
    }

    /// The byte at a unit of the text; within a letter that has two, the byte where it begins.
    pub fn byte(&self, text: &str, unit: u32) -> u32 {
        let after = self.behind.partition_point(|(_, behind)| *behind <= unit);
        let before = after.checked_sub(1).map_or((0, 0), |index| self.behind[index]);
        let byte = before.0.saturating_add(unit - before.1).min(text.len() as u32);
        (0..=byte)
            .rev()
            .find(|at| text.is_char_boundary(*at as usize))
            .unwrap_or(0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bytes_and_units_lead_to_each_other() {
        let text = "a é 漁 🎣b\r\nü";
        let utf16 = Utf16::new(text);
        for (at, _) in text.char_indices().chain([(text.len(), ' ')]) {
            let unit = text[..at].encode_utf16().count() as u32;
            assert_eq!(utf16.unit(at as u32), unit, "byte {at}");
            assert_eq!(utf16.byte(text, unit), at as u32, "unit {unit}");
        }
        let hook = text.find('🎣').unwrap_or_default() as u32;
        assert_eq!(utf16.byte(text, utf16.unit(hook) + 1), hook);
        assert_eq!(utf16.byte(text, 999), text.len() as u32);
    }
}
