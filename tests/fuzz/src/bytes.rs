//! Random bytes, read as a board file.

use board::{LARGEST_FILE, out_of_range, read_board, write_board};

use crate::{Draw, Fault};

/// Reads a randomly corrupted board file.
///
/// # Errors
///
/// A sentence if the board that was read has numbers out of range or does not read back, or if an error message is too long.
pub fn bytes_case(seed: u64, from: &[(String, Vec<u8>)]) -> Result<(), Fault> {
    let mut draw = Draw::new(seed);
    let mut bytes = draw.one(from).1.clone();
    for _ in 0..=draw.below(6) {
        spoil(&mut draw, &mut bytes, from);
    }
    holds(&bytes)
}

/// Checks any bytes.
fn holds(bytes: &[u8]) -> Result<(), Fault> {
    /// The most letters of an error message: it quotes no more than a line or two of the file.
    const LONGEST: usize = 1200;
    match read_board(bytes) {
        Ok(board) => {
            if let Some(wrong) = out_of_range(&board).first() {
                return Err(format!("read although {wrong}"));
            }
            let again = read_board(write_board(&board).as_bytes());
            if again.as_ref() == Ok(&board) {
                Ok(())
            } else {
                Err(format!("reads back as {again:?}"))
            }
        }
        Err(error) if error.to_string().chars().count() > LONGEST => {
            Err(format!("an error of {} letters", error.to_string().len()))
        }
        Err(_) => Ok(()),
    }
}

/// Numbers and characters that trip JSON readers.
const MARKS: &[&str] = &[
    "-0.0",
    "1e999",
    "-1e308",
    "1e-320",
    "NaN",
    "null",
    "{}",
    "[]",
    "[[[[",
    "\"",
    "\\u0000",
    "\\ud800",
    ",",
    ":",
    "18446744073709551616",
    "true",
    "\u{feff}",
    "0.1e+",
    "//",
    "\"kind\":",
];

/// Corrupts bytes in one way.
fn spoil(draw: &mut Draw, bytes: &mut Vec<u8>, from: &[(String, Vec<u8>)]) {
    let at = draw.below(bytes.len() + 1);
    let end = (at + draw.below(40)).min(bytes.len());
    match draw.below(7) {
        0 => drop(bytes.drain(at..end)),
        1 => bytes.truncate(at),
        2 => bytes.insert(at, draw.bits() as u8),
        3 => {
            let mark = draw.one(MARKS).bytes();
            bytes.splice(at..at, mark);
        }
        4 => number_at(draw, bytes, at),
        5 => {
            let part = bytes.get(at..end).unwrap_or_default().to_vec();
            let times = if draw.once_in(50) { 2000 } else { 3 };
            if bytes.len() + part.len() * times < LARGEST_FILE + 100_000 {
                bytes.splice(at..at, part.repeat(times));
            }
        }
        _ => {
            let other = &draw.one(from).1;
            let start = draw.below(other.len() + 1);
            let stop = (start + draw.below(200)).min(other.len());
            let part = other.get(start..stop).unwrap_or_default().to_vec();
            bytes.splice(at..end, part);
        }
    }
}

/// Replaces the first number after a position.
fn number_at(draw: &mut Draw, bytes: &mut Vec<u8>, at: usize) {
    let is_of_number =
        |byte: &u8| byte.is_ascii_digit() || matches!(byte, b'.' | b'-' | b'e' | b'+');
    let rest = bytes.get(at..).unwrap_or_default();
    let Some(start) = rest.iter().position(u8::is_ascii_digit) else {
        return;
    };
    let length = rest
        .iter()
        .skip(start)
        .take_while(|byte| is_of_number(byte))
        .count();
    let mark = draw.one(MARKS).bytes();
    bytes.splice(at + start..at + start + length, mark);
}
