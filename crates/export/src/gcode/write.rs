//! Jobs as lines of a program.

use board::{Bottom, INCH, Units, show_length, show_number};
use workshop::HoleRow;

use super::check::Job;
use super::{GcodeOptions, Program};
use crate::number;

/// The most letters of a name or a date that a comment takes; a line may have 256 (RS274/NGC, 3.3).
const LONGEST_NAME: usize = 80;

/// A program for one bit, of so many.
pub fn one_bit(job: &Job<'_>, bits: usize, options: &GcodeOptions) -> Program {
    let mut lines = Lines::new(options);
    lines.header();
    lines.about_bit(job, bits);
    lines.comment("Put this bit in and set Z with it before the start");
    lines.modes();
    lines.drill(job);
    lines.end();
    Program {
        stem: format!("drill-{}-{}", job.number, bit_stem(job, options.units)),
        text: lines.out,
    }
}

/// One program for all bits.
pub fn all_bits(jobs: &[Job<'_>], options: &GcodeOptions) -> Program {
    let mut lines = Lines::new(options);
    lines.header();
    for job in jobs {
        lines.about_bit(job, jobs.len());
    }
    lines.comment("The length of each bit must be in the tool table under its number");
    lines.modes();
    for job in jobs {
        lines.change_bit(job);
        lines.drill(job);
    }
    lines.end();
    Program {
        stem: "drill".to_owned(),
        text: lines.out,
    }
}

/// Diameter and bottom as part of a file's name.
fn bit_stem(job: &Job<'_>, units: Units) -> String {
    let diameter = match units {
        Units::Mm => show_number(job.diameter, 3) + "mm",
        Units::Inch => show_number(job.diameter / INCH, 4) + "in",
    };
    diameter.replace('.', "_") + "-" + job.bottom.id()
}

/// The lines of a program.
struct Lines<'a> {
    out: String,
    options: &'a GcodeOptions,
    /// Length of the file's unit in mm.
    unit: f64,
    /// Decimals of every length: within 0.00013 mm in either unit.
    places: usize,
}

impl<'a> Lines<'a> {
    fn new(options: &'a GcodeOptions) -> Self {
        let (unit, places) = match options.units {
            Units::Mm => (1.0, 4),
            Units::Inch => (INCH, 5),
        };
        Self {
            out: String::new(),
            options,
            unit,
            places,
        }
    }

    fn header(&mut self) {
        let options = self.options;
        self.comment("Drilling program by Ringwright");
        for (what, words) in [("Board", &options.title), ("Date", &options.date)] {
            if !words.is_empty() {
                self.comment(&format!("{what}: {}", in_comment(words)));
            }
        }
        self.comment("PROVE IT IN AIR ABOVE THE WORK FIRST");
        self.comment(match options.units {
            Units::Mm => "Unit: millimeter",
            Units::Inch => "Unit: inch",
        });
        self.comment("Origin: X0 Y0 at the center pin, Z0 at the top face, 12 o'clock is Y+");
        let travel = show_length(options.machine.clearance, options.units);
        let thickness = show_length(options.thickness, options.units);
        self.comment(&format!(
            "Travels {travel} above the top face: clear clamps and screws"
        ));
        self.comment(&format!("Blank {thickness} thick"));
    }

    /// What the bit is, and how Z is set with it.
    fn about_bit(&mut self, job: &Job<'_>, bits: usize) {
        let units = self.options.units;
        let (number, bit, holes) = (job.number, job.bit(units), job.holes.len());
        self.comment(&format!("Bit {number} of {bits}: {bit}, holes: {holes}"));
        self.comment(&match job.bottom {
            Bottom::Flat | Bottom::Ball => "Z reads 0 when its end touches the top face".to_owned(),
            Bottom::Forstner => "Z reads 0 when its rim, not its spur, is level with the top face".to_owned(),
            Bottom::Point118 | Bottom::Point135 => {
                let mut tip = String::new();
                let length = workshop::tip(job.bore(), self.options.spur);
                number::push(&mut tip, length / self.unit, self.places);
                format!("Z reads {tip} when its point touches the top face: depths are of the full diameter")
            }
        });
    }

    /// What every word after it relies on.
    fn modes(&mut self) {
        let unit = match self.options.units {
            Units::Mm => "G21",
            Units::Inch => "G20",
        };
        self.line(&format!("G17 {unit} G40 G80 G90 G94 G98"));
    }

    /// The spindle stands while the bit is changed; its length comes from the tool table.
    fn change_bit(&mut self, job: &Job<'_>) {
        let number = job.number;
        self.line("M5");
        self.line(&format!("T{number} M6"));
        self.line(&format!("G43 H{number}"));
    }

    /// Up to clearance, spindle on, every hole of a bit.
    fn drill(&mut self, job: &Job<'_>) {
        let options = self.options;
        self.out.push_str("G0");
        self.length(" Z", options.machine.clearance);
        self.out.push('\n');
        self.plain("S", job.speed);
        self.out.push_str(" M3\n");
        if options.machine.spin_up > 0.0 {
            self.plain("G4 P", options.machine.spin_up);
            self.out.push('\n');
        }
        self.out.push('F');
        number::push(&mut self.out, job.feed / self.unit, self.places);
        self.out.push('\n');
        for row in &job.holes {
            self.hole(row, job);
        }
        self.line("G80");
    }

    /// Deep bores are pecked, others dwell if the bit does. In each the bit goes back to clearance (G98).
    fn hole(&mut self, row: &HoleRow, job: &Job<'_>) {
        let peck = job.peck.filter(|&peck| row.depth > peck);
        let dwell = job.dwell.filter(|_| peck.is_none());
        self.out.push_str(match (peck, dwell) {
            (Some(_), _) => "G83",
            (None, Some(_)) => "G82",
            (None, None) => "G81",
        });
        self.length(" X", row.center.x);
        self.length(" Y", row.center.y);
        self.length(" Z", -row.depth);
        self.length(" R", self.options.machine.retract);
        if let Some(peck) = peck {
            self.length(" Q", peck);
        }
        if let Some(dwell) = dwell {
            self.plain(" P", dwell);
        }
        self.out.push_str(" (");
        self.out.push_str(&row.name.to_string());
        self.out.push_str(")\n");
    }

    fn end(&mut self) {
        self.line("M5");
        self.line("M2");
    }

    fn line(&mut self, words: &str) {
        self.out.push_str(words);
        self.out.push('\n');
    }

    fn comment(&mut self, words: &str) {
        self.line(&format!("({words})"));
    }

    /// A length always has its point: some controls take a number without one for thousandths.
    fn length(&mut self, before: &str, mm: f64) {
        self.out.push_str(before);
        number::push_fixed(&mut self.out, mm / self.unit, self.places);
    }

    fn plain(&mut self, before: &str, value: f64) {
        self.out.push_str(before);
        number::push(&mut self.out, value, 3);
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
