//! Resin, glue, finish, abrasives, paper and tape to buy.

use core::f64::consts::PI;

use board::{
    Board, Build, Coat, CoatKind, FLUID_OUNCE, Footing, Paper, PieceKind, Rgb, Units, capital,
};

use super::colors::{in_article, jars};
use super::{Shelf, SoldBy, ToBuy, masking};
use crate::base::fixing::{Fixing, glue_patch};
use crate::blank::panel::panel_width;
use crate::colors::amount::brought;
use crate::colors::resin::groove_resin;
use crate::filling::steps::may_be_sealed;
use crate::finish::steps::is_wiped;
use crate::finish::{bore_area, coat_data, is_color, ml_on};
use crate::job::{Method, Task, counted};
use crate::{FinishNeed, Thicknesses, Workpiece, color_name, finish_needs};

/// Resin, glue, finish, abrasives and paper for this many boards.
///
/// Amounts come from the plans of filling and finish; packs are the usual ones, unless a size was typed with the price.
pub fn lines(workpiece: &Workpiece, boards: u32) -> Vec<ToBuy> {
    let mut all = Vec::new();
    all.extend(resin(workpiece, boards));
    all.extend(cups(workpiece, boards));
    all.extend(setting_epoxy(workpiece, boards));
    all.extend(glue(workpiece, boards));
    all.extend(finish(workpiece, boards));
    all.extend(thinners(workpiece, boards));
    all.extend(applicators(workpiece, boards));
    all.extend(masking::lines(workpiece, boards));
    all.extend(abrasives(workpiece, boards));
    all.extend(paper(workpiece));
    all
}

/// An article sold by volume.
pub fn volume(article: &str, name: &str, need: f64, pack: f64) -> ToBuy {
    ToBuy {
        article: article.into(),
        name: name.into(),
        note: String::new(),
        shelf: Shelf::Supplies,
        sold: SoldBy::Volume,
        need,
        pack,
        owned: false,
    }
}

/// The first size in a list that is enough, ml; the last one if none is.
pub fn size(need: f64, sizes: &[f64]) -> f64 {
    let enough = sizes.iter().find(|size| **size >= need);
    enough.or(sizes.last()).copied().unwrap_or(need)
}

/// Sizes of resin kits, resin and hardener together, ml; from memory.
fn kits(units: Units) -> Vec<f64> {
    match units {
        Units::Inch(_) => [8.0, 16.0, 32.0, 64.0, 128.0]
            .map(|ounces| ounces * FLUID_OUNCE)
            .into(),
        Units::Mm => vec![150.0, 300.0, 750.0, 1500.0, 4500.0],
    }
}

/// Resin and hardener for all batches and for colored grooves, in kits of a size that is enough for one board.
fn resin(workpiece: &Workpiece, boards: u32) -> Option<ToBuy> {
    let pour = workpiece.pour()?;
    let grooves = groove_resin(workpiece).map_or(0.0, |resin| resin.mixed);
    let each = pour.resin / f64::from(pour.boards.max(1)) + grooves;
    let kit = size(each, &kits(workpiece.units()));
    Some(ToBuy {
        note: "resin and hardener together, waste and cups counted in".into(),
        ..volume("resin-kit", "Resin kit", each * f64::from(boards), kit)
    })
}

/// Cups in a pack; common practice, no source.
const CUPS: f64 = 50.0;

/// A cup for each batch, and one for each color in the grooves.
///
/// Cups with cured resin in them are not used again: flakes of it would get into the next batch.
fn cups(workpiece: &Workpiece, boards: u32) -> Option<ToBuy> {
    let pour = workpiece.pour()?;
    let batches = pour.of_one_board().len() as f64;
    let grooves = groove_resin(workpiece).map_or(0, |resin| resin.cups);
    let note = match grooves {
        0 => "one for each batch",
        _ => "one for each batch, and for each color in the grooves",
    };
    Some(ToBuy {
        note: note.into(),
        pack: CUPS,
        ..ToBuy::pieces(
            Shelf::Supplies,
            "mixing-cup".into(),
            "Mixing cups and sticks".into(),
            (batches + f64::from(grooves)) * f64::from(boards),
        )
    })
}

/// A dot of epoxy below a ball or disc, ml; common practice, no source.
const DOT: f64 = 0.1;

/// Epoxy for setting balls or discs.
fn setting_epoxy(workpiece: &Workpiece, boards: u32) -> Option<ToBuy> {
    let seats = workpiece.seats().len() as f64;
    let needed = workpiece.board().piece.kind == PieceKind::Magnet;
    let pack = match workpiece.units() {
        Units::Inch(_) => FLUID_OUNCE,
        Units::Mm => 25.0,
    };
    needed.then(|| ToBuy {
        note: "to glue in the balls or discs that the magnets hold on".into(),
        ..volume(
            "epoxy-adhesive",
            "Epoxy adhesive",
            DOT * seats * f64::from(boards),
            pack,
        )
    })
}

/// Wood glue per square meter of joint, both edges, ml: about 200 g/m²; from memory.
const GLUE: f64 = 200.0;

/// Wood glue for the seams and the base.
fn glue(workpiece: &Workpiece, boards: u32) -> Option<ToBuy> {
    let board = workpiece.board();
    let (seams, base) = (seam_glue(workpiece), base_glue(workpiece));
    let note = match (seams > 0.0, base > 0.0) {
        (true, true) => "for the seams and the base",
        (true, false) => "for the seams",
        (false, true) => "for the base",
        (false, false) => return None,
    };
    let pack = match board.units {
        Units::Inch(_) => 8.0 * FLUID_OUNCE,
        Units::Mm => 250.0,
    };
    let ml = (seams + base) * f64::from(boards);
    Some(ToBuy {
        note: note.into(),
        ..volume("wood-glue", "Wood glue", ml, pack)
    })
}

/// Wood glue below a foot, ml; common practice, no source.
const FOOT: f64 = 2.0;

/// Glue for the base of one board, ml: the patch below a round one, or a spot below each foot.
fn base_glue(workpiece: &Workpiece) -> f64 {
    let glued = workpiece.board().base;
    let glued = glued.filter(|base| Fixing::of(workpiece, base).is_glued());
    glued.map_or(0.0, |base| match base.footing {
        Footing::Round { diameter } => {
            let patch = glue_patch(base.hold, diameter);
            PI * patch * patch / 4.0 / 1e6 * GLUE
        }
        Footing::Feet { count, .. } => FOOT * f64::from(count),
    })
}

/// Glue for the seams of one board, ml, with the mortises of loose tenons; 0 where it is not glued up in the shop.
fn seam_glue(workpiece: &Workpiece) -> f64 {
    let board = workpiece.board();
    if !matches!(board.panel.build, Build::Halves | Build::Strips { .. }) {
        return 0.0;
    }
    let seams = workpiece.seams().len() as f64 * panel_width(board) * Thicknesses::of(board).glued;
    let tenons = board.panel.tenons.map_or(0.0, |size| {
        4.0 * size.reach * (size.length + size.thickness) * workpiece.tenons().len() as f64
    });
    (seams + tenons) / 1e6 * GLUE
}

/// Area of both faces and the edge of a board, m².
fn surface(board: &Board) -> f64 {
    let radius = board.blank.radius();
    (2.0 * PI * radius * radius + 2.0 * PI * radius * board.blank.thickness) / 1e6
}

/// The usual can of finish, ml; from memory.
const fn can(units: Units) -> f64 {
    match units {
        Units::Inch(_) => 16.0 * FLUID_OUNCE,
        Units::Mm => 500.0,
    }
}

/// Finish by kind, all coats of a kind together; where a kind brings colors, one line per color.
///
/// Both faces get the same number of coats, as in the work plan. Shellac that seals the bores comes from the can of the finish.
fn finish(workpiece: &Workpiece, boards: u32) -> Vec<ToBuy> {
    let mut all: Vec<ToBuy> = Vec::new();
    for need in finish_needs(workpiece, boards) {
        let coats = counted(need.coats as usize, "coat", "coats");
        let colors = brought(workpiece, need.kind);
        if colors.is_empty() {
            all.push(of_kind(need.kind, need.ml, workpiece.units(), coats));
        } else {
            let line = |(color, share)| colored(workpiece, need, (color, share), boards);
            all.extend(colors.into_iter().map(line));
        }
    }
    let seal = seal(workpiece) * f64::from(boards);
    let seals = if workpiece.work_plan().has(Task::Seal) {
        SEALS
    } else {
        MAY_SEAL
    };
    let shellac = of_kind(
        CoatKind::DewaxedShellac,
        seal,
        workpiece.units(),
        seals.into(),
    );
    match all.iter_mut().find(|line| line.article == shellac.article) {
        Some(known) if seal > 0.0 => {
            known.need += seal;
            known.note = format!("{}, and {seals}", known.note);
        }
        _ => all.push(shellac),
    }
    all
}

/// Finish of a kind, in usual cans.
fn of_kind(kind: CoatKind, ml: f64, units: Units, note: String) -> ToBuy {
    let label = kind.label();
    let article = format!("finish-{}", label.replace(' ', "-"));
    ToBuy {
        note,
        ..volume(&article, &capital(label), ml, can(units))
    }
}

/// Paint in a pen, ml; from memory.
const PEN: f64 = 8.0;

/// Solvent to thin a finish with and to clean up after it, as a share of the finish; common practice, no source.
const THINNER: f64 = 0.25;

/// The solvents that the finish plan names, each once; water is at hand, and a pen's solvent is in it.
fn thinners(workpiece: &Workpiece, boards: u32) -> Vec<ToBuy> {
    let mut all: Vec<ToBuy> = Vec::new();
    for need in finish_needs(workpiece, boards) {
        let solvent = coat_data(need.kind).solvent;
        if solvent.contains("water") || need.kind == CoatKind::PaintPen {
            continue;
        }
        let article = format!("thinner-{}", solvent.replace(' ', "-"));
        let ml = THINNER * need.ml;
        match all.iter_mut().find(|line| line.article == article) {
            Some(known) => known.need += ml,
            None => all.push(ToBuy {
                note: "to thin the finish and to clean up, as its label says".into(),
                ..volume(&article, &capital(solvent), ml, can(workpiece.units()))
            }),
        }
    }
    all
}

/// Rags in a pack; common practice, no source.
const RAGS: f64 = 20.0;

/// Rags for finish that is wiped on, a new one for each coat on each board, and brushes for what is brushed, which are cleaned.
fn applicators(workpiece: &Workpiece, boards: u32) -> Vec<ToBuy> {
    let coats = &workpiece.board().finish;
    let wiped = coats.iter().filter(|coat| is_wiped(coat.kind));
    let rags: u32 = wiped.map(|coat| coat.coats).sum();
    let is_brushed = |coat: &Coat| {
        coat.kind != CoatKind::PaintPen && !is_wiped(coat.kind) && !is_color(coat.kind)
    };
    let brush = u32::from(coats.iter().any(is_brushed));
    let is_colored = coats
        .iter()
        .any(|coat| is_color(coat.kind) && coat.kind != CoatKind::PaintPen);
    let fine = u32::from(is_colored || workpiece.work_plan().has(Task::Paint));
    let line = |article: &str, name: &str, note: &str, need: f64, pack: f64| ToBuy {
        note: note.into(),
        pack,
        ..ToBuy::pieces(Shelf::Supplies, article.into(), name.into(), need)
    };
    let rags = f64::from(rags) * f64::from(boards);
    let all = [
        line(
            "rag",
            "Lint-free rags",
            "a new one for each coat on each board",
            rags,
            RAGS,
        ),
        line(
            "brush-finish",
            "Brush for finish",
            "cleaned after each coat",
            f64::from(brush),
            1.0,
        ),
        line(
            "brush-fine",
            "Fine brush",
            "for the colors",
            f64::from(fine),
            1.0,
        ),
    ];
    all.into_iter().filter(|line| line.need > 0.0).collect()
}

/// One of the colors of a kind of finish, in small jars or pens.
fn colored(
    workpiece: &Workpiece,
    need: FinishNeed,
    (color, share): (Rgb, f64),
    boards: u32,
) -> ToBuy {
    let plain = of_kind(
        need.kind,
        need.ml * share,
        workpiece.units(),
        counted(need.coats as usize, "coat", "coats"),
    );
    let each = plain.need / f64::from(boards.max(1));
    let pack = match need.kind {
        CoatKind::PaintPen => PEN,
        _ => size(each, &jars(workpiece.units())),
    };
    ToBuy {
        article: format!("{}-{}", plain.article, in_article(color)),
        name: format!("{}, {}", plain.name, color_name(color)),
        pack,
        ..plain
    }
}

/// The purpose of dewaxed shellac that is not a coat.
const SEALS: &str = "to seal the holes before the resin";

/// The purpose of that shellac if the wood is not chosen yet, so that it is not known whether sealing is needed.
const MAY_SEAL: &str = "to seal the holes before the resin if the wood has open pores";

/// Shellac that seals the bores of one board, ml; 0 if the work plan seals none.
fn seal(workpiece: &Workpiece) -> f64 {
    let bores = workpiece.pour().map_or(&[][..], |pour| &pour.bores);
    if !may_be_sealed(workpiece.board()) {
        return 0.0;
    }
    let holes = bores.iter();
    let holes = holes.filter_map(|bore| workpiece.layout().hole(bore.name.id()));
    ml_on(CoatKind::DewaxedShellac, holes.map(bore_area).sum())
}

/// Area of wood that wears out one sanding disc, m²; common practice, no source.
const DISC: f64 = 0.25;
/// Discs in a pack; from memory.
const DISCS: f64 = 10.0;

/// Sanding discs by grit, as in the work plan.
///
/// A dull disc burnishes the wood, which then takes stain unevenly, so discs are counted by surface and not by board.
fn abrasives(workpiece: &Workpiece, boards: u32) -> Vec<ToBuy> {
    let across = match workpiece.units() {
        Units::Inch(_) => "5\"",
        Units::Mm => "125 mm",
    };
    let discs = (surface(workpiece.board()) * f64::from(boards) / DISC).ceil();
    let of = |grit: &u32| ToBuy {
        pack: DISCS,
        ..ToBuy::pieces(
            Shelf::Supplies,
            format!("sanding-disc-{grit}"),
            format!("Sanding discs, {across}, grit {grit}"),
            discs,
        )
    };
    crate::finish::steps::grits(workpiece.board())
        .iter()
        .map(of)
        .collect()
}

/// Sheets of paper in a pack.
const REAM: f64 = 500.0;

/// Paper for the template, and tape for its joints; none for a method without paper.
fn paper(workpiece: &Workpiece) -> Vec<ToBuy> {
    let board = workpiece.board();
    let printed = match Method::of(board) {
        // The jig for one sector takes no more sheets than the board.
        Method::Template | Method::SectorJig => Some(workpiece),
        Method::Router => workpiece.router().map(|(_, template)| template),
        Method::Pivot | Method::Machine => None,
    };
    let tiling = printed.and_then(|printed| printed.tiling().ok());
    let Some(tiling) = tiling else {
        return Vec::new();
    };
    let sheets = tiling.tiles.len() as f64;
    let (article, name) = match board.template.paper {
        Paper::A4 => ("paper-a4", "Paper, A4"),
        Paper::A3 => ("paper-a3", "Paper, A3"),
        Paper::Letter => ("paper-letter", "Paper, Letter"),
        Paper::Legal => ("paper-legal", "Paper, Legal"),
        Paper::Tabloid => ("paper-tabloid", "Paper, Tabloid"),
        Paper::Custom { .. } => ("paper-custom", "Paper of your own size"),
    };
    let line = |article: &str, name: &str, note: &str, need: f64, pack: f64| ToBuy {
        note: note.into(),
        pack,
        ..ToBuy::pieces(Shelf::Templates, article.into(), name.into(), need)
    };
    let note = "one template for all boards";
    let mut all = vec![line(article, name, note, sheets, REAM)];
    if sheets > 1.0 {
        all.push(line(
            "paper-tape",
            "Clear tape, roll",
            "for the joints of the sheets",
            1.0,
            1.0,
        ));
    }
    all
}
