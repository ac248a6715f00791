//! Lines of a program, and what every program begins and ends with.

use board::{DrillWords, INCH, Machine, Units, show_setting};

use crate::number;

/// The most letters of a name or a date that a comment takes; a line may have 256 (RS274/NGC, 3.3).
const LONGEST_NAME: usize = 80;

/// The lines of a program.
pub struct Lines {
    out: String,
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
    pub const fn new(units: Units) -> Self {
        let (unit, places) = match units {
            Units::Mm => (1.0, 4),
            Units::Inch(_) => (INCH, 5),
        };
        Self {
            out: String::new(),
            units,
            unit,
            places,
        }
    }

    /// The program as it is written to a file.
    pub fn into_text(self) -> String {
        self.out
    }

    /// Comments that every program begins with: what it is, for which board, and what must be so before it is started.
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

    /// A line that says something to the maker; no parentheses in it, which do not nest.
    pub fn comment(&mut self, words: &str) {
        self.line(&format!("({words})"));
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
        number::push_fixed(&mut self.out, mm / self.unit, self.places);
    }

    /// A feed a minute, on a line with other words or on its own.
    pub fn feed(&mut self, before: &str, mm: f64) {
        self.out.push_str(before);
        self.out.push('F');
        number::push(&mut self.out, mm / self.unit, self.places);
    }

    /// A number that is no length, to a thousandth: a speed, a time in seconds.
    pub fn plain(&mut self, before: &str, value: f64) {
        self.out.push_str(before);
        number::push(&mut self.out, value, 3);
    }

    /// A length as a comment has it: in the unit of the file, like the words of the program.
    pub fn shown(&self, mm: f64) -> String {
        let mut out = String::new();
        number::push(&mut out, mm / self.unit, self.places);
        out
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
fn in_comment(words: &str) -> String {
    let letters = words.chars().filter(|letter| !letter.is_control());
    let plain = letters.map(|letter| match letter {
        '(' => '[',
        ')' => ']',
        ' '..='~' => letter,
        _ => '?',
    });
    plain.take(LONGEST_NAME).collect()
}
