//! Colored resin: pigment in what is poured into bores, and grooves that are filled.

use board::{Measure, Medium, Rgb, capital};

use super::steps::{in_words, laid};
use super::used::{Place, Used};
use crate::filling::steps::CURE;
use crate::job::{Operation, Task, counted};
use crate::{Caution, Workpiece};

/// The words on pigment; common practice, no source.
const PIGMENT: &str = "Stir pigment for epoxy into the resin before the hardener, no more than its label allows, and mix each color \
                       in a cup of its own.";

/// The colors of the resin in the bores, with how it is colored; none where it stays clear.
pub fn tinted(workpiece: &Workpiece) -> Option<String> {
    let all = poured(workpiece, |place| !matches!(place, Place::Groove));
    let all: Vec<&Used> = all.iter().collect();
    (!all.is_empty()).then(|| format!("{PIGMENT} {}.", capital(&in_words(&all).join("; "))))
}

/// The grooves that are filled with resin; none where none are.
pub fn operation(workpiece: &Workpiece) -> Option<Operation> {
    let all = poured(workpiece, |place| matches!(place, Place::Groove));
    let all: Vec<&Used> = all.iter().collect();
    let resin = groove_resin(workpiece)?;
    let units = workpiece.units();
    let work = [
        "Vacuum the grooves, level the board, and plug the bores that a groove comes near.".into(),
        format!("{PIGMENT} {}.", capital(&in_words(&all).join("; "))),
        format!(
            "Mix {} in {}, resin and hardener by the label's ratio. Lay tape on both sides of the grooves where the wood is porous.",
            Measure::milliliters(resin.mixed).shown(units),
            counted(resin.cups, "cup", "cups")
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
    // Common practice, no source: a groove of a meter is filled and scraped in a quarter of an hour. Each cup is mixed as any batch.
    let minutes = 15.0 + mixing * f64::from(resin.cups) + 15.0 * filled_length(workpiece) / 1000.0;
    let operation = Operation::of(Task::GrooveFill)
        .with("syringe, cups, tape, card scraper, hard block", minutes)
        .minding(&[Caution::Resin])
        .waiting(CURE, "the resin cures, by its label");
    Some(operation.says(work))
}

/// Resin for the colored grooves of one board.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct GrooveResin {
    /// Resin poured into the grooves, waste included, ml.
    pub poured: f64,
    /// Resin mixed: the poured and that left in the cups, ml.
    pub mixed: f64,
    /// Cups: each color has its own, and more than one where it is more than is mixed at once.
    pub cups: u32,
}

/// Resin that the colored grooves of one board take; none where none are filled.
pub fn groove_resin(workpiece: &Workpiece) -> Option<GrooveResin> {
    let filling = workpiece.board().filling?;
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
    let poured: f64 = colors.iter().map(|(_, ml)| ml).sum();
    let room = filling.batch - filling.cup;
    let cups_of = |ml: f64| {
        if room > 0.0 {
            (ml / room).ceil() as u32
        } else {
            1
        }
    };
    let cups = colors.iter().map(|(_, ml)| cups_of(*ml).max(1)).sum();
    (poured > 0.0).then(|| GrooveResin {
        poured,
        mixed: poured + filling.cup * f64::from(cups),
        cups,
    })
}

/// Resin that filled grooves of a length take, waste included, ml.
///
/// A V-groove is a triangle in section, with a flat below it where the tip of the bit is flat.
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

/// Length of the grooves that are filled, mm.
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
            filled.work[1].contains("own. Grooves: player 1 orange"),
            "{:?}",
            filled.work
        );
    }

    #[test]
    fn a_groove_takes_half_of_its_width_by_its_depth() {
        let mut board = board();
        let mut wanted = Grooves::default();
        (wanted.angle, wanted.tip) = (90.0, 0.0);
        board.grooves = Some(wanted);
        let filled = groove_resin(&Workpiece::of(&board).unwrap()).unwrap();
        // Six colors, each in a cup of its own.
        assert_eq!(filled.cups, 6);
        let cup = board.filling.unwrap().cup;
        assert_near!(filled.mixed - filled.poured, 6.0 * cup, 1e-9);
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

    #[test]
    fn pigment_is_told_with_the_resin() {
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
