//! One line of a program: its codes and its words.

/// The most characters that a line may have (RS274/NGC, 3.3).
const LONGEST: usize = 256;
/// The modal groups of the G codes that can be run (RS274/NGC, Table 4); two of one group cannot share a line.
const G_GROUPS: [&[u32]; 9] = [
    &[40],
    &[0, 10, 20, 30, 800, 810, 820, 830],
    &[170],
    &[900, 910],
    &[930, 940],
    &[200, 210],
    &[400, 410, 420],
    &[430, 490],
    &[980, 990],
];
/// The modal groups of the M codes that can be run.
const M_GROUPS: [&[u32]; 3] = [&[0, 1, 2, 30], &[6], &[3, 4, 5]];

/// The codes and words of one line.
#[derive(Debug, Default)]
pub struct Block {
    /// G codes in tenths: 43 is 430.
    g: Vec<u32>,
    m: Vec<u32>,
    words: Vec<(char, f64)>,
}

impl Block {
    /// Reads a line.
    pub fn read(line: &str) -> Result<Self, String> {
        if line.len() > LONGEST {
            return Err(format!("the line is longer than {LONGEST} characters"));
        }
        let line = without_comments(line)?;
        let mut rest = line.as_str();
        let mut block = Self::default();
        while let Some(letter) = rest.chars().next() {
            let (value, after) = number(rest.get(1..).unwrap_or_default())
                .ok_or_else(|| format!("{rest:?} is no word"))?;
            let first = rest.len() == line.len();
            block.add(letter, value, first)?;
            rest = after;
        }
        block.check_groups()?;
        Ok(block)
    }

    fn add(&mut self, letter: char, value: f64, first: bool) -> Result<(), String> {
        match letter {
            'N' if first => {}
            'G' => self.g.push((value * 10.0).round() as u32),
            'M' => self.m.push(value.round() as u32),
            'F' | 'H' | 'I' | 'J' | 'L' | 'P' | 'Q' | 'R' | 'S' | 'T' | 'X' | 'Y' | 'Z' => {
                if self.has(letter) {
                    return Err(format!("{letter} is there twice"));
                }
                self.words.push((letter, value));
            }
            _ => return Err(format!("a word {letter} cannot be run")),
        }
        Ok(())
    }

    fn check_groups(&self) -> Result<(), String> {
        for (codes, groups, letter, unit) in [
            (&self.g, &G_GROUPS[..], 'G', 10.0),
            (&self.m, &M_GROUPS[..], 'M', 1.0),
        ] {
            for code in codes {
                let group = groups.iter().find(|group| group.contains(code));
                let group = group
                    .ok_or_else(|| format!("{letter}{} cannot be run", f64::from(*code) / unit))?;
                if codes.iter().filter(|code| group.contains(code)).count() > 1 {
                    return Err(format!("two {letter} codes of one group"));
                }
            }
        }
        Ok(())
    }

    /// Whether a G code is on the line; given as it is written: 81.
    pub fn g(&self, code: u32) -> bool {
        self.g.contains(&(code * 10))
    }

    /// Whether an M code is on the line.
    pub fn m(&self, code: u32) -> bool {
        self.m.contains(&code)
    }

    /// The first of some G codes that is on the line.
    pub fn one_of(&self, codes: &[u32]) -> Option<u32> {
        codes.iter().copied().find(|code| self.g(*code))
    }

    /// The value of a word, if it is on the line.
    pub fn word(&self, letter: char) -> Option<f64> {
        let word = self.words.iter().find(|(found, _)| *found == letter);
        word.map(|(_, value)| *value)
    }

    /// Whether a word is on the line.
    pub fn has(&self, letter: char) -> bool {
        self.word(letter).is_some()
    }

    /// Whether a word of an axis is on the line.
    pub fn has_axis(&self) -> bool {
        ['X', 'Y', 'Z'].into_iter().any(|axis| self.has(axis))
    }

    /// The first word that is not in the list of used ones.
    pub fn unused(&self, used: &[char]) -> Option<char> {
        let letters = self.words.iter().map(|(letter, _)| *letter);
        letters.into_iter().find(|letter| !used.contains(letter))
    }
}

/// The line in upper case without comments, spaces and tabs.
fn without_comments(line: &str) -> Result<String, String> {
    let mut out = String::new();
    let mut inside = false;
    for letter in line.chars() {
        match (letter, inside) {
            ('(', true) => return Err("a comment within a comment".to_owned()),
            ('(', false) => inside = true,
            (')', true) => inside = false,
            (' ' | '\t', false) | (_, true) => {}
            (_, false) => out.push(letter.to_ascii_uppercase()),
        }
    }
    if inside {
        return Err("a comment has no end".to_owned());
    }
    Ok(out)
}

/// A number at the start of a text, and the rest of the text: a sign, digits, a point; no exponent.
fn number(text: &str) -> Option<(f64, &str)> {
    let unsigned = text.strip_prefix(['+', '-']).unwrap_or(text);
    let digits = unsigned.trim_start_matches(|letter: char| letter.is_ascii_digit());
    let after = digits.strip_prefix('.').map_or(digits, |decimals| {
        decimals.trim_start_matches(|letter: char| letter.is_ascii_digit())
    });
    let (value, after) = text.split_at_checked(text.len() - after.len())?;
    Some((value.parse().ok()?, after))
}
