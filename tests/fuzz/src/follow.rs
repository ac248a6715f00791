//! Everything derived from a document, and the rules it must satisfy.

use std::time::{Duration, Instant};

use app::exports::{Body, Kind, Moment, Source};
use board::{Board, out_of_range, read_board, write_board};
use drawing::{Shape, Sheet};
use workshop::{Mend, Workpiece};

use crate::read_back::{is_plain, read_back};
use crate::{Draw, Fault, document};

/// The time of each part of a case, to find slow ones.
pub type Cost = Vec<(String, Duration)>;

/// Derives some kinds of exports and two fixes from a random document.
///
/// # Errors
///
/// A sentence that states the violated rule.
pub fn document_case(
    seed: u64,
    from: &[Board],
    kinds: &[Kind],
    cost: &mut Cost,
) -> Result<(), (Box<Board>, Fault)> {
    let mut draw = Draw::new(seed);
    let board = document(&mut draw, from);
    let mends = [*draw.one(&Mend::ALL), *draw.one(&Mend::ALL)];
    follow(&board, kinds, &mends, cost).map_err(|fault| (Box::new(board), fault))
}

/// Computes everything derived from a document, makes the exports and the fixes, and reads them back.
///
/// # Errors
///
/// A sentence that states the violated rule.
pub fn follow(board: &Board, kinds: &[Kind], mends: &[Mend], cost: &mut Cost) -> Result<(), Fault> {
    let again = read_board(write_board(board).as_bytes());
    if again.as_ref() != Ok(board) {
        return Err(format!("its file reads back as {again:?}"));
    }
    let moment = Moment {
        year: 2026,
        month: 11,
        day: 25,
    };
    let source = match timed("layout", cost, || Source::of(board, moment)) {
        Ok(source) => source.with_proof(200),
        Err(error) => {
            return is_plain(&board.units.say(&error)).map_err(|fault| format!("layout: {fault}"));
        }
    };
    timed("words", cost, || words(&source))?;
    for mend in mends {
        let mended = timed(&format!("{mend:?}"), cost, || mend.applied(board));
        if let Some(wrong) = mended
            .ok()
            .and_then(|mended| out_of_range(&mended).into_iter().next())
        {
            return Err(format!("{mend:?}: {wrong}"));
        }
    }
    for &kind in kinds {
        let word = kind.word();
        timed(&word, cost, || exported(&source, kind))
            .map_err(|fault| format!("{word}: {fault}"))?;
    }
    Ok(())
}

fn timed<T>(what: &str, cost: &mut Cost, work: impl FnOnce() -> T) -> T {
    let start = Instant::now();
    let done = work();
    cost.push((what.into(), start.elapsed()));
    done
}

/// Checks the sentences of the findings and the calculations.
fn words(source: &Source) -> Result<(), Fault> {
    let workpiece = source.workpiece();
    let units = source.board().units;
    for finding in workpiece.findings() {
        let measures = finding.measures(units).unwrap_or_default();
        for words in [&finding.message, &measures] {
            is_plain(words)
                .map_err(|fault| format!("finding {}: {fault}", finding.rule.label()))?;
        }
    }
    for group in workpiece.sums() {
        for sum in &group.sums {
            for words in [sum.titled(units), sum.shown(units)] {
                is_plain(&words).map_err(|fault| format!("sum {}: {fault}", sum.name))?;
            }
        }
    }
    Ok(())
}

/// Applies every fix that the findings of a document offer; returns the number that could be applied.
///
/// # Errors
///
/// A sentence if a fix sets a number outside its field's range, or makes a document that no file could hold.
pub fn mends_offered(board: &Board) -> Result<usize, Fault> {
    let Ok(workpiece) = Workpiece::of(board) else {
        return Ok(0);
    };
    let findings = workpiece.findings().iter();
    let offered = findings.flat_map(|finding| finding.mends.iter().copied());
    let mut made = 0;
    for mend in Mend::ALL
        .into_iter()
        .filter(|mend| offered.clone().any(|it| it == *mend))
    {
        let Ok(mended) = mend.applied(board) else {
            continue;
        };
        made += 1;
        // Every field of the table checks its own value.
        for (field, entry, value) in board::field::fields_of(&mended) {
            if let Err(wrong) = field.check(&value, entry) {
                return Err(format!("{mend:?} sets {wrong:?}"));
            }
        }
        if read_board(write_board(&mended).as_bytes()).as_ref() != Ok(&mended) {
            return Err(format!("{mend:?} makes a board that reads back otherwise"));
        }
    }
    Ok(made)
}

/// One kind of export: checks the words on its sheets, and reads its files back.
fn exported(source: &Source, kind: Kind) -> Result<(), Fault> {
    let units = source.board().units;
    let content = match source.content(kind) {
        Ok(content) => content,
        Err(error) => return is_plain(&units.say(&error)),
    };
    for file in &content.0 {
        let sheets: &[Sheet] = match &file.body {
            Body::Pages(sheets, _) | Body::Illustrated(sheets, _) => sheets,
            Body::Svg(sheet) | Body::Dxf(sheet) => core::slice::from_ref(sheet),
            Body::Picture(..) | Body::Text(_) => &[],
        };
        for sheet in sheets {
            for item in sheet.marks.iter().chain(&sheet.view.items) {
                if let Shape::Text(text) = &item.shape {
                    is_plain(&text.words)?;
                }
            }
        }
    }
    let files = source.files(kind).map_err(|error| units.say(&error))?;
    for (name, bytes) in files {
        read_back(&name, &bytes).map_err(|fault| format!("{name}: {fault}"))?;
    }
    Ok(())
}
