//! Lines of a program, and what every program begins and ends with.

use board::{DrillWords, INCH, Machine, Units, show_setting};

use super::GcodeError;
use crate::number::{self, Written};

/// The most letters of a name or a date that comments take.
const LONGEST_NAME: usize = 80;
/// The most letters of a line that is a comment, its parentheses included. A line may have 256 (RS274/NGC, 3.3), but small controls
/// read into 80 and drop a longer line; from memory.
const LONGEST_LINE: usize = 76;

/// The lines of a program.
pub struct Lines {
    out: Written,
    units: Units,
    /// Length of the file's unit in mm.
    unit: f64,
    /// Decimals of every length: within 0.00013 mm in either unit.
    places: usize,
}

/// Facts of the board for the top of a program.
pub struct Head<'a> {
    /// The work of the program: "Drilling".
    pub work: &'a str,
    /// Name of the board.
    pub title: &'a str,
    /// The date.
    pub date: &'a str,
    /// The rules that stop the board; empty where none does.
    pub stop: &'a str,
    /// Height of travel above the top face, mm.
    pub clearance: f64,
    /// Thickness of the board, mm.
    pub thickness: f64,
    /// Thickness of the blank before it is planed, mm.
    pub blank: f64,
}

impl Lines {
    /// No line yet, for a file in a unit.
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

    /// The program as it is written to a file.
    ///
    /// # Errors
    ///
    /// [`GcodeError::Figure`] for a number that is NaN or infinite.
    pub fn into_text(self) -> Result<String, GcodeError> {
        Ok(self.out.finish()?)
    }

    /// Comments that every program begins with: its purpose, its board, and the set-up it needs before it is started.
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

    /// Straight up or down, as fast as the machine can.
    pub fn rise(&mut self, z: f64) {
        self.words("G0", &[('Z', z)]);
        self.out.push('\n');
    }

    /// Spindle off, end of the program. `M2` and not `M30`, which also changes the pallet (RS274/NGC, 3.6.1).
    pub fn end(&mut self) {
        self.line("M5");
        self.line("M2");
    }

    /// A line, or the end of one.
    pub fn line(&mut self, words: &str) {
        self.text(words);
        self.out.push('\n');
    }

    /// A line that says something to the maker, or several where it is long; no parentheses in it, which do not nest.
    pub fn comment(&mut self, words: &str) {
        for (at, part) in broken(words, LONGEST_LINE - 4).iter().enumerate() {
            // A line that goes on begins with a sign of its own, so that no word there is taken for a message.
            let sign = if at == 0 { "" } else { "- " };
            self.line(&format!("({sign}{part})"));
        }
    }

    /// Words of a line that goes on.
    pub fn text(&mut self, words: &str) {
        self.out.push_str(words);
    }

    /// A code and lengths after it.
    pub fn words(&mut self, code: &str, lengths: &[(char, f64)]) {
        self.out.push_str(code);
        for &(letter, mm) in lengths {
            self.length(letter, mm);
        }
    }

    /// A length always has its point: some controls take a number without one for thousandths.
    pub fn length(&mut self, letter: char, mm: f64) {
        self.out.push(' ');
        self.out.push(letter);
        self.out
            .fixed("a length of the program", mm / self.unit, self.places);
    }

    /// A feed a minute, on a line with other words or on its own.
    pub fn feed(&mut self, before: &str, mm: f64) {
        self.out.push_str(before);
        self.out.push('F');
        self.out
            .short("a feed of the program", mm / self.unit, self.places);
    }

    /// A number that is no length, to a thousandth: a speed, a time in seconds.
    pub fn plain(&mut self, before: &str, value: f64) {
        self.out.push_str(before);
        self.out.short("a speed or a time of the program", value, 3);
    }

    /// A length as a comment has it: in the unit of the file, like the words of the program.
    pub fn shown(&mut self, mm: f64) -> String {
        let shown = number::short("a length of the program", mm / self.unit, self.places);
        shown.unwrap_or_else(|_| {
            // The text refuses it in its turn, so that no program comes of it.
            self.out.short("a length of the program", mm, 0);
            String::new()
        })
    }

    /// The least length that can be written and is no shorter, mm.
    pub fn no_shorter(&self, mm: f64) -> f64 {
        /// The most that dividing may add to a length that can be written as it is, in its last place.
        const HAIR: f64 = 1e-6;
        let scale = match self.units {
            Units::Mm => 1e4,
            Units::Inch(_) => 1e5 / self.unit,
        };
        (mm * scale - HAIR).ceil() / scale
    }
}

/// Words that end no comment and begin no message: ASCII without parentheses.
///
/// `!`, `?`, `~` and `$` are left out as well: a control that is fed line by line takes the first three as commands (hold,
/// report, resume) wherever they stand, and the last for a setting. `%` ends a program, and `;` begins a comment of another kind.
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

/// Words in lines of at most so many letters, broken between words where that can be.
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
    fn letters_that_a_control_takes_for_commands_are_left_out() {
        assert_eq!(
            in_comment("Oh! (50 % off?) ~ $5; né\n"),
            "Oh. [50 . off.] . .5. n_"
        );
    }
}
