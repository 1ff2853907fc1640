//! Where two states of a text differ.
//!
//! It knows nothing of what stands there.

/// The bytes of the old text, from and to, that are not as in the new one.
pub fn differing(old: &str, new: &str) -> (u32, u32) {
    let (old, new) = (old.as_bytes(), new.as_bytes());
    let ahead = common(old, new);
    let shorter = old.len().min(new.len()) - ahead;
    let behind = common_end(&old[old.len() - shorter..], &new[new.len() - shorter..]);
    (ahead as u32, (old.len() - behind) as u32)
}

/// Long stretches are compared as wholes first, which is far quicker than byte by byte.
const STRETCH: usize = 4096;

fn common(one: &[u8], other: &[u8]) -> usize {
    let stretches = one.chunks_exact(STRETCH).zip(other.chunks_exact(STRETCH));
    let start = stretches.take_while(|(one, other)| one == other).count() * STRETCH;
    let rest = one[start..].iter().zip(&other[start..]);
    start + rest.take_while(|(one, other)| one == other).count()
}

fn common_end(one: &[u8], other: &[u8]) -> usize {
    let stretches = one.rchunks_exact(STRETCH).zip(other.rchunks_exact(STRETCH));
    let end = stretches.take_while(|(one, other)| one == other).count() * STRETCH;
    let rest = one[..one.len() - end]
        .iter()
        .rev()
        .zip(other[..other.len() - end].iter().rev());
    end + rest.take_while(|(one, other)| one == other).count()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_alike_on_both_sides_is_left_out() {
        assert_eq!(differing("abc", "abXc"), (2, 2));
        assert_eq!(differing("aaa", "aa"), (2, 3));
        assert_eq!(differing("", "x"), (0, 0));
        let long = "line\n".repeat(STRETCH);
        let mut typed = long.clone();
        typed.insert(9000, 'x');
        assert_eq!(differing(&long, &typed), (9000, 9000));
    }
}
