//! Bytes as text in base 64 (RFC 4648, section 4).

/// The characters, by value.
const SIGNS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/// Bytes in base 64, padded with `=`.
pub fn base64(bytes: &[u8]) -> String {
    let mut text = String::with_capacity(bytes.len().div_ceil(3) * 4);
    for group in bytes.chunks(3) {
        let at = |place: usize| u32::from(group.get(place).copied().unwrap_or(0));
        let bits = at(0) << 16 | at(1) << 8 | at(2);
        for sign in 0..4 {
            let value = (bits >> (18 - 6 * sign)) & 63;
            let letter = SIGNS
                .get(value as usize)
                .map_or('=', |sign| char::from(*sign));
            text.push(if sign <= group.len() { letter } else { '=' });
        }
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    /// RFC 4648, section 10: test vectors.
    #[test]
    fn the_test_vectors_of_the_standard_match() {
        for (bytes, text) in [
            ("", ""),
            ("f", "Zg=="),
            ("fo", "Zm8="),
            ("foo", "Zm9v"),
            ("foob", "Zm9vYg=="),
            ("fooba", "Zm9vYmE="),
            ("foobar", "Zm9vYmFy"),
        ] {
            assert_eq!(base64(bytes.as_bytes()), text);
        }
    }
}
