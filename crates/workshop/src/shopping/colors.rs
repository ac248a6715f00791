//! Paint, dye and stain by color, pigment for resin, and inlays to buy.

use board::{BorePart, FLUID_OUNCE, Medium, Rgb, Units, show_length};

use super::supplies::{size, volume};
use super::{Shelf, ToBuy, in_name};
use crate::colors::amount::{area, resin};
use crate::colors::steps::{kind_of, laid};
use crate::colors::used::{Place, Used};
use crate::finish::ml_on;
use crate::{Workpiece, color_name};

/// Materials that are applied, inlaid or stirred into resin for this many boards, one line per color.
///
/// A color that a coat of the finish brings is listed with the finish.
pub fn lines(workpiece: &Workpiece, boards: u32) -> Vec<ToBuy> {
    let all = laid(workpiece);
    let mut lines = wet(workpiece, &all, boards);
    lines.extend(pigments(workpiece, &all, boards));
    lines.extend(inlays(workpiece, &all, boards));
    lines
}

/// The name of a color in article names, independent of its name on screens.
pub fn in_article(color: Rgb) -> String {
    color.to_string().trim_start_matches('#').into()
}

/// The parts of a board grouped by color, in the order of their first part.
fn by_color(all: &[Used], of: impl Fn(&Used) -> bool) -> Vec<(Rgb, Vec<&Used>)> {
    let mut colors: Vec<(Rgb, Vec<&Used>)> = Vec::new();
    for one in all.iter().filter(|one| of(one)) {
        match colors
            .iter_mut()
            .find(|(color, _)| *color == one.tint.color)
        {
            Some((_, parts)) => parts.push(one),
            None => colors.push((one.tint.color, vec![one])),
        }
    }
    colors
}

/// The parts that have a color, each named once.
fn parts_in_words(parts: &[&Used]) -> String {
    let mut names: Vec<String> = Vec::new();
    for name in parts.iter().map(|one| one.words()) {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    format!("for {}", names.join("; "))
}

/// Sizes of small cans and jars of color, ml; from memory.
pub fn jars(units: Units) -> Vec<f64> {
    match units {
        Units::Inch(_) => [2.0, 4.0, 8.0, 16.0, 32.0]
            .map(|ounces| ounces * FLUID_OUNCE)
            .into(),
        Units::Mm => vec![60.0, 125.0, 250.0, 500.0, 1000.0],
    }
}

/// Number of coats of a medium: paint covers with two, as its step of the work says; dye and stain need one.
const fn coats(medium: Medium) -> f64 {
    match medium {
        Medium::Paint => 2.0,
        Medium::Dye | Medium::Stain | Medium::Inlay | Medium::Resin => 1.0,
    }
}

/// Paint, dye and stain by area.
fn wet(workpiece: &Workpiece, all: &[Used], boards: u32) -> Vec<ToBuy> {
    let mut lines = Vec::new();
    for (medium, word, name) in [
        (Medium::Dye, "dye", "Dye"),
        (Medium::Stain, "stain", "Stain"),
        (Medium::Paint, "paint", "Paint"),
    ] {
        let Some(kind) = kind_of(medium) else {
            continue;
        };
        for (color, parts) in by_color(all, |one| one.tint.medium == medium) {
            let covered: f64 = parts.iter().map(|one| area(workpiece, one)).sum();
            let each = ml_on(kind, covered) * coats(medium);
            lines.push(ToBuy {
                note: parts_in_words(&parts),
                ..volume(
                    &format!("{word}-{}", in_article(color)),
                    &format!("{name}, {}", color_name(color)),
                    each * f64::from(boards),
                    size(each, &jars(workpiece.units())),
                )
            });
        }
    }
    lines
}

/// Pigment as a share of the resin's volume; from memory; the resin's label gives its own amount.
const PIGMENT: f64 = 0.03;

/// Pigment for the resin that it colors.
fn pigments(workpiece: &Workpiece, all: &[Used], boards: u32) -> Vec<ToBuy> {
    let pack = match workpiece.units() {
        Units::Inch(_) => FLUID_OUNCE,
        Units::Mm => 30.0,
    };
    let colors = by_color(all, |one| one.tint.medium == Medium::Resin);
    let line = |(color, parts): (Rgb, Vec<&Used>)| {
        let colored: f64 = parts.iter().map(|one| resin(workpiece, one)).sum();
        ToBuy {
            note: parts_in_words(&parts),
            ..volume(
                &format!("resin-pigment-{}", in_article(color)),
                &format!("Pigment for epoxy, {}", color_name(color)),
                colored * PIGMENT * f64::from(boards),
                pack,
            )
        }
    };
    colors.into_iter().map(line).collect()
}

/// Length of an inlay strip for grooves, mm, and the share lost at joints and ends; common practice, no source.
const STRIP: (f64, f64) = (600.0, 0.1);

/// Inlays: strips for the length of the grooves, and one piece for each mark, field or ring.
fn inlays(workpiece: &Workpiece, all: &[Used], boards: u32) -> Vec<ToBuy> {
    let mut lines: Vec<ToBuy> = Vec::new();
    for one in all.iter().filter(|one| one.tint.medium == Medium::Inlay) {
        let line = inlay(workpiece, one);
        match lines.iter_mut().find(|known| known.article == line.article) {
            Some(known) => {
                known.need += line.need;
                known.note = format!("{}; {}", known.note, one.words());
            }
            None => lines.push(line),
        }
    }
    for line in &mut lines {
        // Strips are rounded up over all boards together.
        line.need = (line.need * f64::from(boards) - 1e-9).ceil();
    }
    lines
}

/// The inlay of one part of one board; a need of strips is not rounded.
fn inlay(workpiece: &Workpiece, one: &Used) -> ToBuy {
    let board = workpiece.board();
    let length = |mm| show_length(mm, workpiece.units());
    let color = color_name(one.tint.color);
    let (kind, name, need) = match one.place {
        Place::Groove => {
            let wide = board.grooves.map_or(0.0, |grooves| grooves.width);
            let (strip, lost) = STRIP;
            (
                format!("strip-{}", in_name(wide)),
                format!(
                    "Inlay strip, {color}, {} wide, {} long",
                    length(wide),
                    length(strip)
                ),
                one.length * (1.0 + lost) / strip,
            )
        }
        Place::Mark => {
            let size = board.colors.marks.map_or(0.0, |made| made.size);
            (
                format!("mark-{}", in_name(size)),
                format!("Inlay for a mark, {color}, {} across", length(size)),
                1.0,
            )
        }
        Place::Field => {
            let pieces = if one.player == 0 { board.players } else { 1 };
            (
                "field".into(),
                format!("Inlay for a player's field, {color}"),
                f64::from(pieces),
            )
        }
        Place::Bore(BorePart::Ring | BorePart::Inside | BorePart::Filling) => {
            let wide = board.colors.ring;
            (
                format!("ring-{}", in_name(wide)),
                format!("Inlay ring, {color}, {} wide", length(wide)),
                one.holes.len() as f64,
            )
        }
    };
    ToBuy {
        note: format!("for {}", one.words()),
        ..ToBuy::pieces(
            Shelf::Supplies,
            format!("inlay-{kind}-{}", in_article(one.tint.color)),
            name,
            need,
        )
    }
}
