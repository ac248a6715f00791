//! `ringwright check`: the findings, for people or as JSON.

use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;

use board::several;
use clap::Args;
use serde::Serialize;
use workshop::{Finding, Workpiece, stops};

use super::read::{board_of, workpiece_of};
use super::report::{AccuracyReport, BlankReport, SeamReport};
use super::{Failure, printed};

/// Options of `ringwright check`.
#[derive(Debug, Args)]
pub struct Check {
    /// The board file
    file: PathBuf,
    /// Print the findings as JSON
    #[arg(long)]
    json: bool,
}

/// The findings as they are printed for other programs.
#[derive(Serialize)]
struct Report<'a> {
    format: u32,
    title: &'a str,
    holes: usize,
    sheets: Option<usize>,
    blank: Option<BlankReport>,
    seams: Option<SeamReport>,
    accuracy: Option<AccuracyReport>,
    findings: &'a [Finding],
}

/// Version of the JSON layout.
const REPORT_FORMAT: u32 = 1;

impl Check {
    /// Prints the findings; ends with 1 if any is a stop.
    ///
    /// # Errors
    /// Where the file cannot be read or the board cannot be laid out.
    pub fn run(&self, out: &mut dyn Write, errors: &mut dyn Write) -> Result<ExitCode, Failure> {
        let board = board_of(&self.file, errors)?;
        let workpiece = workpiece_of(&board, None)?;
        printed(if self.json {
            as_json(&workpiece, out)
        } else {
            for_people(&workpiece, out)
        })?;
        Ok(if stops(workpiece.findings()) {
            ExitCode::from(1)
        } else {
            ExitCode::SUCCESS
        })
    }
}

fn as_json(workpiece: &Workpiece, out: &mut dyn Write) -> Result<(), Failure> {
    let report = Report {
        format: REPORT_FORMAT,
        title: &workpiece.board().title,
        holes: workpiece.layout().holes.len(),
        sheets: workpiece.tiling().ok().map(|tiling| tiling.tiles.len()),
        blank: BlankReport::of(workpiece),
        seams: SeamReport::of(workpiece),
        accuracy: AccuracyReport::of(workpiece),
        findings: workpiece.findings(),
    };
    writeln!(out, "{}", serde_json::to_string_pretty(&report)?)?;
    Ok(())
}

fn for_people(workpiece: &Workpiece, out: &mut dyn Write) -> Result<(), Failure> {
    let (board, holes) = (workpiece.board(), &workpiece.layout().holes);
    let title = match board.title.trim() {
        "" => "Untitled board",
        title => title,
    };
    writeln!(out, "{title}: {}", several(holes.len(), "hole"))?;
    match workpiece.tiling() {
        Ok(tiling) => writeln!(
            out,
            "template: {} × {} sheets, {} of them used",
            tiling.columns,
            tiling.rows,
            tiling.tiles.len()
        )?,
        Err(error) => writeln!(out, "template: {error}")?,
    }
    if workpiece.findings().is_empty() {
        writeln!(out, "no problems found")?;
    }
    for finding in workpiece.findings() {
        writeln!(
            out,
            "{:<8} {}: {}",
            finding.severity.label(),
            finding.rule.label(),
            finding.message
        )?;
        if let Some(measures) = finding.measures(board.units) {
            writeln!(out, "         {measures}")?;
        }
        if !finding.holes.is_empty() {
            writeln!(out, "         {}", names(finding))?;
        }
    }
    Ok(())
}

/// The names of a finding's holes, cut short where they are many.
fn names(finding: &Finding) -> String {
    const MOST: usize = 12;
    let names: Vec<String> = finding
        .holes
        .iter()
        .take(MOST)
        .map(ToString::to_string)
        .collect();
    let more = finding.holes.len() - names.len();
    let rest = if more > 0 {
        format!(" and {more} more")
    } else {
        String::new()
    };
    names.join(" ") + &rest
}
