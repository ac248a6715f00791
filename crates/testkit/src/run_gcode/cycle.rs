//! Canned cycles G81 to G83 (RS274/NGC, 3.5.16).

use super::block::Block;
use super::{GcodeKind, Machine, positive_or_zero};

/// The words that a cycle keeps for the next line, as given, in mm and seconds.
#[derive(Debug, Clone, Copy, Default)]
pub struct Sticky {
    /// The cycle to which Z, P and Q belong.
    code: Option<u32>,
    r: Option<f64>,
    z: Option<f64>,
    dwell: Option<f64>,
    peck: Option<f64>,
}

/// Height above the last bottom where the next peck begins, mm; the report says "a bit", and the public source of its
/// interpreter 0.010 in.
const BACK_OFF: f64 = 0.254;

/// One hole's absolute heights, mm.
#[derive(Clone, Copy)]
struct Heights {
    r: f64,
    bottom: f64,
    clear: f64,
}

impl Machine {
    pub(super) fn cycle(&mut self, code: u32, block: &Block) -> Result<(), String> {
        self.check_cycle(code, block)?;
        self.remember(code, block)?;
        let repeats = repeats(block)?;
        let (r, z) = (
            self.sticky.r.ok_or("R is missing")?,
            self.sticky.z.ok_or("Z is missing")?,
        );
        let old = self.at[2];
        let (r, bottom) = if self.absolute {
            (r, z)
        } else {
            (old + r, old + r + z)
        };
        if r < bottom {
            return Err("R is lower than Z".to_owned());
        }
        let clear = if self.back_to_r { r } else { old.max(r) };
        if old < r {
            self.rise(r);
        }
        for _ in 0..repeats {
            let [x, y, _] = self.target(block);
            self.go(GcodeKind::Rapid, [x, y, self.at[2]]);
            self.rise(r);
            self.bore(code, Heights { r, bottom, clear });
        }
        Ok(())
    }

    fn check_cycle(&self, code: u32, block: &Block) -> Result<(), String> {
        let used: &[char] = match code {
            81 => &['F', 'L', 'R', 'S', 'T', 'X', 'Y', 'Z'],
            82 => &['F', 'L', 'P', 'R', 'S', 'T', 'X', 'Y', 'Z'],
            _ => &['F', 'L', 'Q', 'R', 'S', 'T', 'X', 'Y', 'Z'],
        };
        if let Some(word) = block.unused(used) {
            return Err(format!("{word} has no use in G{code}"));
        }
        if !block.has_axis() {
            return Err("a cycle needs X, Y or Z".to_owned());
        }
        if self.feed_mode == 93 {
            return Err("a cycle cannot have an inverse-time feed".to_owned());
        }
        if self.compensation != 40 {
            return Err("a cycle cannot have cutter compensation".to_owned());
        }
        self.needs_feed()
    }

    /// Keeps R from any cycle, and Z, P and Q from the same one.
    fn remember(&mut self, code: u32, block: &Block) -> Result<(), String> {
        let old = self.sticky;
        let same = |kept: Option<f64>| kept.filter(|_| old.code == Some(code));
        let length = |letter| block.word(letter).map(|value| value * self.unit);
        let dwell = block.word('P').or_else(|| same(old.dwell));
        let peck = length('Q').or_else(|| same(old.peck));
        if code == 82 {
            positive_or_zero('P', dwell.ok_or("P is missing")?)?;
        }
        if code == 83 && peck.ok_or("Q is missing")? <= 0.0 {
            return Err("Q is not over 0".to_owned());
        }
        self.sticky = Sticky {
            code: Some(code),
            r: length('R').or(old.r),
            z: length('Z').or_else(|| same(old.z)),
            dwell,
            peck,
        };
        Ok(())
    }

    fn bore(&mut self, code: u32, heights: Heights) {
        let Heights { r, bottom, clear } = heights;
        let peck = self.sticky.peck.filter(|_| code == 83);
        let mut reached = r;
        while let Some(peck) = peck.filter(|peck| reached - peck > bottom) {
            reached -= peck;
            self.feed_to(reached);
            self.rise(clear);
            self.rise(reached + BACK_OFF);
        }
        self.feed_to(bottom);
        if code == 82 {
            let kind = GcodeKind::Dwell(self.sticky.dwell.unwrap_or_default());
            self.step(kind, self.at);
        }
        self.rise(clear);
    }

    /// A rapid straight up or down.
    fn rise(&mut self, z: f64) {
        self.go(GcodeKind::Rapid, [self.at[0], self.at[1], z]);
    }

    fn feed_to(&mut self, z: f64) {
        self.go(GcodeKind::Feed, [self.at[0], self.at[1], z]);
    }
}

fn repeats(block: &Block) -> Result<u32, String> {
    let repeats = block.word('L').unwrap_or(1.0);
    if repeats >= 1.0 && repeats.fract() == 0.0 {
        Ok(repeats as u32)
    } else {
        Err("L is not a whole number over 0".to_owned())
    }
}
