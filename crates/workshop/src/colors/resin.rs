//! Colored resin: pigment in the resin of bores, and grooves filled with resin.

use board::{Measure, Medium, MixedBy, Rgb, capital};

use super::steps::laid;
use super::used::{Place, Used};
use super::words::in_words;
use crate::filling::steps::CURE;
use crate::job::{Operation, Task, counted, for_each};
use crate::{Caution, Workpiece};

/// The sentences on pigment; common practice, no source.
const PIGMENT: &str = "Stir pigment for epoxy into the resin before the hardener, no more than its label allows, and mix each color \
                       in a cup of its own.";

/// The colors of the resin in the bores, and how to color it; `None` if it stays clear.
pub fn tinted(workpiece: &Workpiece) -> Option<String> {
    let all = poured(workpiece, |place| !matches!(place, Place::Groove));
    let all: Vec<&Used> = all.iter().collect();
    (!all.is_empty()).then(|| {
        format!(
            "{PIGMENT} {}.",
            capital(&in_words(workpiece, &all).join("; "))
        )
    })
}

/// The operation of filling grooves with resin; `None` if no groove is filled.
pub fn operation(workpiece: &Workpiece) -> Option<Operation> {
    let all = poured(workpiece, |place| matches!(place, Place::Groove));
    let all: Vec<&Used> = all.iter().collect();
    let resin = groove_resin(workpiece)?;
    let units = workpiece.units();
    let work = [
        "Vacuum the grooves, level the board, and plug the holes that a groove comes near.".into(),
        "Lay tape on both sides of the grooves where the wood is porous.".into(),
        mixed(&resin, workpiece),
        format!(
            "{} {}.",
            pigment(&resin),
            capital(&in_words(workpiece, &all).join("; "))
        ),
        format!(
            "Pour {} into the grooves with a syringe, until it stands slightly proud.",
            Measure::milliliters(resin.poured).shown(units)
        ),
        "When it is cured, scrape it flush with the face and sand it with a hard block.".into(),
    ];
    let mixing = workpiece
        .board()
        .filling
        .map_or(0.0, |filling| filling.mixing);
    let mixes = if resin.is_parted { 1 } else { resin.cups };
    // Common practice, no source: filling and scraping a groove of one meter takes a quarter of an hour. The time to mix does
    // not depend on the amount.
    let minutes = 15.0 + mixing * f64::from(mixes) + 15.0 * filled_length(workpiece) / 1000.0;
    let operation = Operation::of(Task::GrooveFill)
        .with("syringe, cups, tape, card scraper, hard block", minutes)
        .minding(&[Caution::Resin])
        .waiting(CURE, "the resin cures, by its label");
    Some(operation.says(work))
}

/// The sentence on mixing resin.
fn mixed(resin: &GrooveResin, workpiece: &Workpiece) -> String {
    let ml = Measure::milliliters(resin.mixed).shown(workpiece.units());
    let each = for_each(workpiece.board().schedule.boards);
    let cups = match (resin.is_parted, resin.cups) {
        (true, _) => "one cup".into(),
        (false, cups) => counted(cups, "cup", "cups"),
    };
    let least = if resin.is_least {
        " Less cannot be measured out to the label's ratio."
    } else {
        ""
    };
    format!("Mix {ml}{each} in {cups}, resin and hardener by the label's ratio.{least}")
}

/// The sentences on pigment: before the hardener, or, where one mix is divided among several colors, after it.
fn pigment(resin: &GrooveResin) -> String {
    if resin.is_parted {
        let cups = counted(resin.cups - 1, "cup", "cups");
        format!(
            "Part it among {cups}, one for each color, and stir in pigment for epoxy, no more than its label allows; the working time runs meanwhile."
        )
    } else {
        PIGMENT.into()
    }
}

/// Resin for the colored grooves of one board.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GrooveResin {
    /// Resin poured into the grooves, waste included, ml.
    pub poured: f64,
    /// Resin mixed, ml: the resin poured and that left in the cups; never less than can be measured out.
    pub mixed: f64,
    /// Number of cups: one to mix in and one for each color where all is mixed at once, otherwise those of every color.
    pub cups: u32,
    /// Whether all of it is mixed in one cup and divided among those of the colors.
    pub is_parted: bool,
    /// Whether so little is poured that the least measurable amount is mixed.
    pub is_least: bool,
}

/// The least mix whose parts can be measured out to a few percent, ml: in a cup with marks, or on a scale that shows tenths of
/// a gram; common practice, no source.
pub const fn least_mix(by: MixedBy) -> f64 {
    match by {
        MixedBy::Volume => 10.0,
        MixedBy::Weight => 5.0,
    }
}

/// The resin for the colored grooves of one board; `None` if none are filled.
///
/// A small amount is mixed in one cup and divided among the colors: no cup then retains more than it was given, and the mixing
/// cup retains its usual residue.
pub fn groove_resin(workpiece: &Workpiece) -> Option<GrooveResin> {
    let filling = workpiece.board().filling?;
    let colors = groove_colors(workpiece);
    let poured: f64 = colors.iter().sum();
    if poured <= 0.0 {
        return None;
    }
    let kept = |ml: f64| filling.cup.min(ml);
    let is_parted = colors.len() > 1;
    let parted: f64 = if is_parted {
        colors.iter().map(|ml| ml + kept(*ml)).sum()
    } else {
        poured
    };
    let at_once = parted + kept(parted);
    if at_once <= filling.batch {
        let least = least_mix(filling.mix.by).min(filling.batch);
        let mixing = u32::from(is_parted);
        return Some(GrooveResin {
            poured,
            mixed: at_once.max(least),
            cups: mixing + colors.len() as u32,
            is_parted,
            is_least: at_once < least,
        });
    }
    let room = filling.batch - filling.cup;
    let cups_of = |ml: f64| {
        if room > 0.0 {
            (ml / room).ceil().max(1.0) as u32
        } else {
            1
        }
    };
    let each = colors.iter().map(|ml| (*ml, cups_of(*ml)));
    let rest: f64 = each
        .clone()
        .map(|(ml, cups)| kept(ml / f64::from(cups)) * f64::from(cups))
        .sum();
    Some(GrooveResin {
        poured,
        mixed: poured + rest,
        cups: each.map(|(_, cups)| cups).sum(),
        is_parted: false,
        is_least: false,
    })
}

/// Resin for each color of the grooves, waste included, ml.
fn groove_colors(workpiece: &Workpiece) -> Vec<f64> {
    let mut colors: Vec<(Rgb, f64)> = Vec::new();
    for one in poured(workpiece, |place| matches!(place, Place::Groove)) {
        let ml = groove_ml(workpiece, one.length);
        match colors
            .iter_mut()
            .find(|(color, _)| *color == one.tint.color)
        {
            Some((_, known)) => *known += ml,
            None => colors.push((one.tint.color, ml)),
        }
    }
    colors
        .into_iter()
        .map(|(_, ml)| ml)
        .filter(|ml| *ml > 0.0)
        .collect()
}

/// Resin for filled grooves of a length, waste included, ml.
///
/// A V-groove is a triangle in section, with a flat bottom where the tip of the bit is flat.
pub fn groove_ml(workpiece: &Workpiece, length: f64) -> f64 {
    let board = workpiece.board();
    let (Some(wanted), Some(filling), Some(plan)) =
        (board.grooves, board.filling, workpiece.grooves())
    else {
        return 0.0;
    };
    let section = (wanted.width + wanted.tip) * plan.depth.max(0.0) / 2.0;
    length * section / 1000.0 * (1.0 + filling.waste)
}

/// Length of the filled grooves, mm.
fn filled_length(workpiece: &Workpiece) -> f64 {
    let all = poured(workpiece, |place| matches!(place, Place::Groove));
    all.iter().map(|one| one.length).sum()
}

/// The colors of resin in some places.
fn poured(workpiece: &Workpiece, is_in: impl Fn(Place) -> bool) -> Vec<Used> {
    let mut all = laid(workpiece);
    all.retain(|one| one.tint.medium == Medium::Resin && is_in(one.place));
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, BorePart, Colored, Filling, Grooves, Hue};
    use testkit::assert_near;

    fn board() -> Board {
        let mut board = Board {
            grooves: Some(Grooves::default()),
            filling: Some(Filling::default()),
            ..Board::default()
        };
        board.colors.grooves = Colored {
            hue: Hue::Player,
            medium: Medium::Resin,
        };
        board
    }

    #[test]
    fn colored_grooves_are_filled_before_sanding() {
        let board = board();
        let workpiece = Workpiece::of(&board).unwrap();
        let plan = workpiece.work_plan();
        let at = |task| plan.operations.iter().position(|it| it.task == task);
        assert!(at(Task::Grooves) < at(Task::GrooveFill));
        assert!(at(Task::GrooveFill) < at(Task::Sand));
        let filled = plan.of(Task::GrooveFill).next().unwrap();
        assert!(
            filled.work[3].contains("meanwhile. Grooves: player 1 orange"),
            "{:?}",
            filled.work
        );
    }

    #[test]
    fn a_groove_takes_half_its_width_times_its_depth() {
        let mut board = board();
        let mut wanted = Grooves::default();
        (wanted.angle, wanted.tip) = (90.0, 0.0);
        board.grooves = Some(wanted);
        let filled = groove_resin(&Workpiece::of(&board).unwrap()).unwrap();
        // One cup to mix in, and one for each of six colors.
        assert!(filled.is_parted);
        assert_eq!(filled.cups, 7);
        let workpiece = Workpiece::of(&board).unwrap();
        // A V bit of 90 degrees cuts a groove half as deep as it is wide.
        let depth = wanted.width / 2.0;
        let length = workpiece.grooves().unwrap().length;
        let waste = 1.0 + board.filling.unwrap().waste;
        assert_near!(
            filled.poured,
            wanted.width * depth / 2.0 * length * waste / 1000.0,
            1e-9
        );
        board.colors.grooves.hue = Hue::Bare;
        assert_eq!(groove_resin(&Workpiece::of(&board).unwrap()), None);
    }

    /// By hand: six cups retain as much as is poured from them, and the mixing cup as much as they were given; an amount too
    /// small to measure is raised to the least that can be measured; and more than a batch is mixed color by color.
    #[test]
    fn small_amounts_of_resin_are_mixed_once_and_large_ones_color_by_color() {
        let mut board = board();
        let resin = |board: &Board, waste: f64, batch: f64| {
            let mut board = board.clone();
            let filling = board.filling.as_mut().unwrap();
            (filling.waste, filling.batch, filling.mix.by) = (waste, batch, MixedBy::Weight);
            board.grooves.as_mut().unwrap().width = 2.5;
            groove_resin(&Workpiece::of(&board).unwrap()).unwrap()
        };
        let least = resin(&board, 0.15, 30.0);
        assert!(least.is_least && least.is_parted, "{least:?}");
        assert_near!(least.mixed, 5.0, 0.0);
        // A high share of waste stands in for longer grooves: about 1.5 ml are poured.
        let little = resin(&board, 2.0, 200.0);
        assert!(little.is_parted && !little.is_least, "{little:?}");
        assert_near!(little.mixed, 4.0 * little.poured, 1e-9);
        let much = resin(&board, 2.0, 5.5);
        assert!(!much.is_parted && much.cups == 6, "{much:?}");
        assert_near!(much.mixed, 2.0 * much.poured, 1e-9);
        board.colors.grooves.hue = Hue::One {
            color: Rgb::new(30, 60, 160),
        };
        let one = resin(&board, 2.0, 200.0);
        assert!(!one.is_parted && one.is_least && one.cups == 1, "{one:?}");
    }

    #[test]
    fn resin_comes_with_advice_on_pigment() {
        let mut board = board();
        assert_eq!(tinted(&Workpiece::of(&board).unwrap()), None);
        board.colors.home.hue = Hue::Player;
        board.colors.home.on = BorePart::Filling;
        board.colors.home.medium = Medium::Resin;
        let workpiece = Workpiece::of(&board).unwrap();
        let told = tinted(&workpiece).unwrap();
        assert!(told.contains("player 1 orange"), "{told}");
        let fill = workpiece.work_plan().of(Task::Fill).next().unwrap();
        assert!(fill.work.contains(&told));
    }
}
