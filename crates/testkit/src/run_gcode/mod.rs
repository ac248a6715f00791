//! Runs G-code by the rules of RS274/NGC (NISTIR 6556, 2000) and returns every move; it is independent of the writer.
//!
//! Table and clause numbers are from memory.
//!
//! It supports the part of the language that a drilling program needs: straight moves and arcs in the XY plane, dwells, canned
//! cycles G81 to G83, spindle and tools. Tools have no length, and offsets are zero. Everything else is a fault, as is anything
//! the report calls an error.

mod block;
mod cycle;
#[cfg(test)]
mod tests;

use block::Block;
use cycle::Sticky;

/// The moves and stops of a program; lengths are in mm, whatever the unit of the program.
#[derive(Debug, Clone, PartialEq)]
pub struct GcodeRun {
    /// Everything that it does, in order.
    pub steps: Vec<GcodeStep>,
    /// Spindle speed, rpm, just before the end of the program stops it; 0 is off.
    pub spindle_at_end: f64,
}

impl GcodeRun {
    /// The x, y and deepest Z of each bore, in order; pecks into one bore count once.
    pub fn bores(&self) -> Vec<[f64; 3]> {
        let mut bores: Vec<[f64; 3]> = Vec::new();
        let mut up = true;
        for step in &self.steps {
            let aside = step.from[..2] != step.to[..2];
            if step.kind == GcodeKind::Feed {
                let same = |bore: &&mut [f64; 3]| !up && bore[..2] == step.to[..2];
                match bores.last_mut().filter(same) {
                    Some(bore) => bore[2] = bore[2].min(step.to[2]),
                    None => bores.push(step.to),
                }
            }
            // Pecks go up to clearance too: only a sideways move starts another bore.
            up = aside || (up && step.kind != GcodeKind::Feed);
        }
        bores
    }
}

/// One action of a program.
#[derive(Debug, Clone, PartialEq)]
pub struct GcodeStep {
    /// Its line, from 1.
    pub line: usize,
    /// The kind of move.
    pub kind: GcodeKind,
    /// The tool's position before, x, y, z.
    pub from: [f64; 3],
    /// The tool's position after.
    pub to: [f64; 3],
    /// Spindle speed, rpm; 0 is off, negative is counterclockwise.
    pub spindle: f64,
    /// Feed in mm per minute.
    pub feed: f64,
}

/// The kind of a move.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum GcodeKind {
    /// A straight move as fast as the machine can.
    Rapid,
    /// A straight move at the feed.
    Feed,
    /// An arc at the feed, clockwise or not, around a center.
    Arc {
        /// x and y of the center.
        center: [f64; 2],
        /// Whether it runs clockwise, seen from above.
        clockwise: bool,
    },
    /// A wait, in seconds.
    Dwell(f64),
    /// A change to the tool in a slot.
    Tool(u32),
    /// A stop until the operator continues.
    Stop,
}

/// The reason why a program cannot be run.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct GcodeFault {
    /// The line, from 1.
    pub line: usize,
    /// The fault.
    pub why: String,
}

/// Runs a program with the tool at a position, in millimeters until the program sets another unit.
///
/// # Errors
///
/// [`GcodeFault`] for the first line that breaks a rule, or uses an unsupported word.
pub fn run_gcode(program: &str, start: [f64; 3]) -> Result<GcodeRun, GcodeFault> {
    let mut machine = Machine::new(start);
    let lines = || {
        program
            .lines()
            .enumerate()
            .map(|(at, line)| (at + 1, line.trim()))
    };
    let mut marks = lines().filter(|(_, line)| *line == "%");
    let first = lines().find(|(_, line)| !line.is_empty());
    let marked = first.is_some_and(|(_, line)| line == "%");
    if marked && marks.nth(1).is_none() {
        return Err(fault(program.lines().count(), "the second % is missing"));
    }
    let skipped = if marked {
        first.map_or(0, |(at, _)| at)
    } else {
        0
    };
    for (at, line) in lines().skip(skipped) {
        if line == "%" {
            break;
        }
        machine.line = at;
        let ended = Block::read(line).and_then(|block| machine.run(&block));
        if ended.map_err(|why| fault(at, &why))? {
            return Ok(machine.into_run());
        }
    }
    if marked {
        Ok(machine.into_run())
    } else {
        Err(fault(program.lines().count(), "the program has no end"))
    }
}

fn fault(line: usize, why: &str) -> GcodeFault {
    let why = why.to_owned();
    GcodeFault { line, why }
}

/// The state of the machine.
struct Machine {
    line: usize,
    steps: Vec<GcodeStep>,
    at: [f64; 3],
    /// Length of the unit in mm.
    unit: f64,
    absolute: bool,
    /// G93 or G94: feed as inverse time, or as length per minute.
    feed_mode: u32,
    /// G40, G41 or G42: cutter compensation off, left, right.
    compensation: u32,
    /// Whether cycles return only to R (G99).
    back_to_r: bool,
    /// The modal motion; none after G80.
    motion: Option<u32>,
    sticky: Sticky,
    feed: f64,
    speed: f64,
    /// Direction of the spindle: 1 clockwise, -1 counterclockwise, 0 off.
    turning: f64,
    slot: u32,
}

const MOTIONS: [u32; 8] = [0, 1, 2, 3, 80, 81, 82, 83];

impl Machine {
    fn new(start: [f64; 3]) -> Self {
        Self {
            line: 0,
            steps: Vec::new(),
            at: start,
            unit: 1.0,
            absolute: true,
            feed_mode: 94,
            compensation: 40,
            back_to_r: false,
            motion: Some(1),
            sticky: Sticky::default(),
            feed: 0.0,
            speed: 0.0,
            turning: 0.0,
            slot: 0,
        }
    }

    fn into_run(self) -> GcodeRun {
        GcodeRun {
            spindle_at_end: self.turning * self.speed,
            steps: self.steps,
        }
    }

    /// Runs one line in the order of RS274/NGC, Table 8; returns whether it ends the program.
    fn run(&mut self, block: &Block) -> Result<bool, String> {
        self.numbers(block)?;
        self.tool_and_spindle(block)?;
        self.wait(block)?;
        self.modes(block);
        let dwells = block.g(4);
        if let Some(motion) = block.one_of(&MOTIONS) {
            self.motion = Some(motion).filter(|motion| *motion != 80);
            if motion != 80 {
                self.motion(motion, block)?;
            } else if block.has_axis() {
                return Err("an axis moves though G80 ends all motion".to_owned());
            }
        } else if block.has_axis() {
            let motion = self.motion.ok_or("an axis moves without a motion")?;
            self.motion(motion, block)?;
        } else if let Some(word) = block.unused(if dwells {
            &['F', 'S', 'T', 'H', 'P']
        } else {
            &['F', 'S', 'T', 'H']
        }) {
            return Err(format!("{word} has no use here"));
        }
        if block.m(0) || block.m(1) {
            self.step(GcodeKind::Stop, self.at);
        }
        Ok(block.m(2) || block.m(30))
    }

    fn numbers(&mut self, block: &Block) -> Result<(), String> {
        self.feed_mode = block.one_of(&[93, 94]).unwrap_or(self.feed_mode);
        if let Some(feed) = block.word('F') {
            self.feed = positive_or_zero('F', feed)? * self.unit;
        }
        if let Some(speed) = block.word('S') {
            self.speed = positive_or_zero('S', speed)?;
        }
        if let Some(slot) = block.word('T') {
            self.slot = positive_or_zero('T', slot)? as u32;
        }
        Ok(())
    }

    fn tool_and_spindle(&mut self, block: &Block) -> Result<(), String> {
        if block.m(6) {
            self.step(GcodeKind::Tool(self.slot), self.at);
            self.turning = 0.0;
        }
        for (code, turning) in [(3, 1.0), (4, -1.0), (5, 0.0)] {
            if block.m(code) {
                self.turning = turning;
            }
        }
        if block.g(43) && block.word('H').is_none_or(|slot| slot < 0.0) {
            return Err("G43 needs the H of a tool".to_owned());
        }
        if block.has('H') && !block.g(43) {
            return Err("H has no use here".to_owned());
        }
        Ok(())
    }

    fn wait(&mut self, block: &Block) -> Result<(), String> {
        if block.g(4) {
            let seconds = block.word('P').ok_or("G4 needs P")?;
            let kind = GcodeKind::Dwell(positive_or_zero('P', seconds)?);
            self.step(kind, self.at);
        }
        Ok(())
    }

    fn modes(&mut self, block: &Block) {
        if let Some(units) = block.one_of(&[20, 21]) {
            self.unit = if units == 20 { 25.4 } else { 1.0 };
        }
        self.compensation = block.one_of(&[40, 41, 42]).unwrap_or(self.compensation);
        if block.g(90) || block.g(91) {
            self.absolute = block.g(90);
        }
        if block.g(98) || block.g(99) {
            self.back_to_r = block.g(99);
        }
    }

    fn motion(&mut self, motion: u32, block: &Block) -> Result<(), String> {
        match motion {
            81..=83 => self.cycle(motion, block),
            2 | 3 => self.arc(motion == 2, block),
            _ => self.straight(motion == 0, block),
        }
    }

    fn straight(&mut self, rapid: bool, block: &Block) -> Result<(), String> {
        if let Some(word) = block.unused(&['F', 'H', 'S', 'T', 'X', 'Y', 'Z']) {
            return Err(format!("{word} has no use here"));
        }
        if !block.has_axis() {
            return Err("no axis moves".to_owned());
        }
        let kind = if rapid {
            GcodeKind::Rapid
        } else {
            self.needs_feed()?;
            GcodeKind::Feed
        };
        let to = self.target(block);
        self.go(kind, to);
        Ok(())
    }

    /// An arc with its center, which I and J give relative to its start.
    fn arc(&mut self, clockwise: bool, block: &Block) -> Result<(), String> {
        // The most that the two radii may differ: 0.0002 in or 0.002 mm (RS274/NGC, 3.5.3.2).
        let unlike = if self.unit > 1.0 {
            0.0002 * self.unit
        } else {
            0.002
        };
        if let Some(word) = block.unused(&['F', 'I', 'J', 'S', 'T', 'X', 'Y', 'Z']) {
            return Err(format!("{word} has no use here"));
        }
        if !block.has('X') && !block.has('Y') {
            return Err("an arc needs X or Y".to_owned());
        }
        if !block.has('I') && !block.has('J') {
            return Err("an arc needs I or J".to_owned());
        }
        self.needs_feed()?;
        let to = self.target(block);
        let offset = |letter| block.word(letter).unwrap_or_default() * self.unit;
        let center = [self.at[0] + offset('I'), self.at[1] + offset('J')];
        let radius =
            |end: [f64; 3]| kurbo::Vec2::new(end[0] - center[0], end[1] - center[1]).length();
        if (radius(self.at) - radius(to)).abs() > unlike {
            return Err("the ends of the arc are not as far from its center".to_owned());
        }
        // A full circle ends at its start, but is a move all the same.
        self.step(GcodeKind::Arc { center, clockwise }, to);
        Ok(())
    }

    fn needs_feed(&self) -> Result<(), String> {
        if self.feed > 0.0 {
            Ok(())
        } else {
            Err("there is no feed".to_owned())
        }
    }

    /// The target of a line's axis words.
    fn target(&self, block: &Block) -> [f64; 3] {
        let mut to = self.at;
        for (axis, letter) in to.iter_mut().zip(['X', 'Y', 'Z']) {
            if let Some(value) = block.word(letter) {
                let base = if self.absolute { 0.0 } else { *axis };
                *axis = base + value * self.unit;
            }
        }
        to
    }

    /// A move, unless it ends at its start.
    fn go(&mut self, kind: GcodeKind, to: [f64; 3]) {
        if to != self.at {
            self.step(kind, to);
        }
    }

    fn step(&mut self, kind: GcodeKind, to: [f64; 3]) {
        self.steps.push(GcodeStep {
            line: self.line,
            kind,
            from: self.at,
            to,
            spindle: self.turning * self.speed,
            feed: self.feed,
        });
        self.at = to;
    }
}

fn positive_or_zero(letter: char, value: f64) -> Result<f64, String> {
    if value >= 0.0 {
        Ok(value)
    } else {
        Err(format!("{letter} is negative"))
    }
}
