//! Lines of a program, and the start and end of every program.

use board::{DrillWords, INCH, Machine, Units, show_setting};

use super::GcodeError;
use crate::number::{self, Written};

/// The most characters of a name or a date in comments.
const LONGEST_NAME: usize = 80;
/// The most characters of a comment line, including its parentheses. A line may have 256 (RS274/NGC, 3.3), but small controls
/// read into a buffer of 80 and drop a longer line; from memory.
const LONGEST_LINE: usize = 76;

/// The lines of a program.
pub struct Lines {
    out: Written,
    units: Units,
    /// Length of the file's unit in mm.
    unit: f64,
    /// Decimals of every length, accurate to 0.00013 mm in either unit.
    places: usize,
}

/// Facts about the board for the top of a program.
pub struct Head<'a> {
    /// The work of the program: "Drilling".
    pub work: &'a str,
    /// Name of the board.
    pub title: &'a str,
    /// The date.
    pub date: &'a str,
    /// The rules that stop the board; empty if none do.
    pub stop: &'a str,
    /// Clearance height above the top face, mm.
    pub clearance: f64,
    /// Thickness of the board, mm.
    pub thickness: f64,
    /// Thickness of the blank before it is planed, mm.
    pub blank: f64,
}

impl Lines {
    /// No lines yet, for a file in this unit.
    pub fn new(units: Units) -> Self {
        let (unit, places) = match units {
            Units::Mm => (1.0, 4),
            Units::Inch(_) => (INCH, 5),
        };
        Self {
            out: Written::default(),
            units,
            unit,
            places,
        }
    }

    /// The program as text for a file.
    ///
    /// # Errors
    ///
    /// [`GcodeError::Figure`] for a number that is NaN or infinite.
    pub fn into_text(self) -> Result<String, GcodeError> {
        Ok(self.out.finish()?)
    }

    /// Comments that every program begins with: its purpose, its board, and the setup it needs before it is started.
    pub fn head(&mut self, head: &Head<'_>) {
        self.comment(&format!("{} program by Ringwright", head.work));
        for (what, words) in [("Board", head.title), ("Date", head.date)] {
            if !words.is_empty() {
                self.comment(&format!("{what}: {}", in_comment(words)));
            }
        }
        if !head.stop.is_empty() {
            self.comment("STOP: DO NOT RUN THIS PROGRAM, THE CHECKS STOP THIS BOARD");
            self.comment(&format!("Settle first: {}", in_comment(head.stop)));
        }
        self.comment("PROVE IT IN AIR ABOVE THE WORK FIRST");
        self.comment(match self.units {
            Units::Mm => "Unit: millimeter",
            Units::Inch(_) => "Unit: inch",
        });
        self.comment("Origin: X0 Y0 at the center pin, Z0 at the top face, 12 o'clock is Y+");
        let travel = show_setting(head.clearance, self.units);
        let thickness = show_setting(head.thickness, self.units);
        self.comment(&format!(
            "Travels {travel} above the top face: clear clamps and screws"
        ));
        self.comment(&format!("Board {thickness} thick"));
        if head.blank > head.thickness {
            let blank = show_setting(head.blank, self.units);
            self.comment(&format!("Plane the blank of {blank} to that first"));
        }
    }

    /// Writes the modes that every word after them relies on; those of cycles only for a control that has cycles.
    pub fn modes(&mut self, machine: &Machine) {
        let unit = match self.units {
            Units::Mm => "G21",
            Units::Inch(_) => "G20",
        };
        self.line(&match machine.words {
            DrillWords::Cycles => format!("G17 {unit} G40 G80 G90 G94 G98"),
            DrillWords::Moves => format!("G17 {unit} G40 G90 G94"),
        });
    }

    /// Up to clearance, spindle on and up to speed.
    pub fn start(&mut self, machine: &Machine, speed: f64) {
        self.rise(machine.clearance);
        self.plain("S", speed);
        self.out.push_str(" M3\n");
        if machine.spin_up > 0.0 {
            self.plain("G4 P", machine.spin_up);
            self.out.push('\n');
        }
    }

    /// Straight up or down at rapid speed.
    pub fn rise(&mut self, z: f64) {
        self.words("G0", &[('Z', z)]);
        self.out.push('\n');
    }

    /// Spindle off, end of the program. It is `M2` and not `M30`, which also changes the pallet (RS274/NGC, 3.6.1).
    pub fn end(&mut self) {
        self.line("M5");
        self.line("M2");
    }

    /// Adds a line, or the rest of one.
    pub fn line(&mut self, words: &str) {
        self.text(words);
        self.out.push('\n');
    }

    /// Adds a comment for the maker, in several lines where it is long; parentheses are removed, since they do not nest.
    pub fn comment(&mut self, words: &str) {
        for (at, part) in broken(words, LONGEST_LINE - 4).iter().enumerate() {
            // A continued line begins with a hyphen, so that no word in it is taken for a message.
            let sign = if at == 0 { "" } else { "- " };
            self.line(&format!("({sign}{part})"));
        }
    }

    /// Adds words without ending the line.
    pub fn text(&mut self, words: &str) {
        self.out.push_str(words);
    }

    /// Adds a code followed by lengths.
    pub fn words(&mut self, code: &str, lengths: &[(char, f64)]) {
        self.out.push_str(code);
        for &(letter, mm) in lengths {
            self.length(letter, mm);
        }
    }

    /// Adds a length, always with a decimal point: some controls take a number without one as thousandths.
    pub fn length(&mut self, letter: char, mm: f64) {
        self.out.push(' ');
        self.out.push(letter);
        self.out
            .fixed("a length of the program", mm / self.unit, self.places);
    }

    /// Adds a feed per minute, on a line with other words or by itself.
    pub fn feed(&mut self, before: &str, mm: f64) {
        self.out.push_str(before);
        self.out.push('F');
        self.out
            .short("a feed of the program", mm / self.unit, self.places);
    }

    /// Adds a number that is not a length, to a thousandth: a speed, a time in seconds.
    pub fn plain(&mut self, before: &str, value: f64) {
        self.out.push_str(before);
        self.out.short("a speed or a time of the program", value, 3);
    }

    /// A length for a comment, in the unit of the file, like the words of the program.
    pub fn shown(&mut self, mm: f64) -> String {
        let shown = number::short("a length of the program", mm / self.unit, self.places);
        shown.unwrap_or_else(|_| {
            // The text rejects the number too, so that no program results from it.
            self.out.short("a length of the program", mm, 0);
            String::new()
        })
    }

    /// The least length that can be written and is not shorter, mm.
    pub fn no_shorter(&self, mm: f64) -> f64 {
        /// The most that division may add in the last place to a length that can be written exactly.
        const HAIR: f64 = 1e-6;
        let scale = match self.units {
            Units::Mm => 1e4,
            Units::Inch(_) => 1e5 / self.unit,
        };
        (mm * scale - HAIR).ceil() / scale
    }
}

/// Words that neither end a comment nor start a message: ASCII without parentheses.
///
/// `!`, `?`, `~` and `$` are left out as well: a control that is fed line by line takes the first three as commands (hold,
/// report, resume) anywhere in a line, and the last as a setting. `%` ends a program, and `;` starts another kind of comment.
/// All from memory.
fn in_comment(words: &str) -> String {
    let letters = words.chars().filter(|letter| !letter.is_control());
    let plain = letters.map(|letter| match letter {
        '(' => '[',
        ')' => ']',
        '!' | '?' | '~' | '$' | '%' | ';' => '.',
        ' '..='~' => letter,
        _ => '_',
    });
    plain.take(LONGEST_NAME).collect()
}

/// Words in lines of at most this many characters, broken between words where possible.
fn broken(words: &str, most: usize) -> Vec<String> {
    let mut lines = vec![String::new()];
    for word in words.split(' ') {
        let mut word: Vec<char> = word.chars().collect();
        while !word.is_empty() {
            let line = lines.last().map_or(0, String::len);
            let gap = usize::from(line > 0);
            if line + gap + word.len() > most && line > 0 {
                lines.push(String::new());
                continue;
            }
            let taken = word.len().min(most);
            let rest = word.split_off(taken);
            if let Some(line) = lines.last_mut() {
                line.extend((gap > 0).then_some(' '));
                line.extend(word);
            }
            word = rest;
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_comments_are_broken_between_words() {
        assert_eq!(broken("", 10), [""]);
        assert_eq!(broken("one two three", 20), ["one two three"]);
        assert_eq!(broken("one two three", 9), ["one two", "three"]);
        assert_eq!(broken("a abcdefghij", 4), ["a", "abcd", "efgh", "ij"]);
        let mut lines = Lines::new(Units::Mm);
        lines.comment(&"word ".repeat(40));
        let text = lines.into_text().unwrap();
        assert!(text.lines().count() > 2);
        assert!(text.lines().all(|line| line.len() <= LONGEST_LINE));
    }

    #[test]
    fn characters_that_a_control_takes_for_commands_are_left_out() {
        assert_eq!(
            in_comment("Oh! (50 % off?) ~ $5; né\n"),
            "Oh. [50 . off.] . .5. n_"
        );
    }
}
