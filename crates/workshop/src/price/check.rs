//! Rule: every part of the price is known, and the price is above the cost.

use board::{Board, Measure};

use crate::check::{Finding, Rule, Severity};
use crate::price::{Costing, Rate};
use crate::{Workpiece, job};

/// The rule in words, as the list of rules shows it.
pub const STATEMENT: &str = "Everything that the order uses has a price above 0, and the price before tax is above the cost. The \
     margin is a share of that price, so it stays below 100 %. A tax over 40 % is probably a slip. Anything without a price is \
     left out of the cost and listed. Nothing is checked until a first price is typed.";

/// A tax rate above which a typing error is likely, as a share; common practice, no source.
const TAX: f64 = 0.4;

/// Findings about the price; none until any price has been typed.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let board = workpiece.board();
    if !board.price.is_begun() {
        return Vec::new();
    }
    let costing = workpiece.costing();
    let mut findings = Vec::new();
    findings.extend(margin(board, costing));
    findings.extend(free(board, costing));
    findings.extend(tax(board));
    findings.extend(missing(costing));
    findings
}

/// A finding of the rule.
fn finding(severity: Severity, message: String) -> Finding {
    Finding::new(severity, Rule::Price, message)
}

/// A margin that leaves no price, or one below the cost.
///
/// A price below the cost may be intended, as for a friend: the loss is reported, and the price is not rejected.
fn margin(board: &Board, costing: &Costing) -> Option<Finding> {
    let margin = board.price.margin;
    if costing.sale.is_none() {
        let message = "A margin of 100 % leaves nothing for the cost: no price is worked out. Enter a smaller margin.";
        return Some(finding(Severity::Caution, message.into()));
    }
    if margin >= 0.0 {
        return None;
    }
    let loss = costing.cost - costing.sale?.net;
    if loss.minor <= 0 {
        return None;
    }
    let message = format!(
        "The price is below the cost: the order loses {}. Enter a margin of 0 % or more.",
        loss.shown(costing.currency)
    );
    Some(finding(Severity::Caution, message).measuring(Measure::share(margin), Measure::share(0.0)))
}

/// Articles and hours at a price of 0.
///
/// Articles that the shop already has are left out: for them a price of 0 is right.
fn free(board: &Board, costing: &Costing) -> Option<Finding> {
    let is_free = |price: Option<f64>| price == Some(0.0);
    let lines = costing.lines.iter().filter(|line| line.is_charged());
    let lines = lines.filter(|line| line.price.is_some_and(Rate::is_nothing));
    let mut names: Vec<&str> = Vec::new();
    for line in lines {
        if !names.contains(&line.line.name.as_str()) {
            names.push(&line.line.name);
        }
    }
    if is_free(board.price.hourly) {
        names.push("your hourly rate");
    }
    if names.is_empty() {
        return None;
    }
    let message = format!(
        "A price of 0: {}. Enter a price, clear the field, or tick that your shop has it.",
        listed(&names)
    );
    Some(finding(Severity::Caution, message))
}

/// A tax rate that is probably a typing error.
///
/// The price is worked out with it all the same.
fn tax(board: &Board) -> Option<Finding> {
    let tax = board.price.tax;
    (tax > TAX).then(|| {
        let shown = Measure::share(tax).shown(board.units);
        let message =
            format!("A tax of {shown} is more than is usual. Check the number under Sales tax.");
        finding(Severity::Note, message).measuring(Measure::share(tax), Measure::share(TAX))
    })
}

/// The finding about missing prices.
///
/// It names articles as the shopping list does, and the hourly rate if that is missing.
fn missing(costing: &Costing) -> Option<Finding> {
    let names: Vec<&str> = costing.missing.iter().map(String::as_str).collect();
    if names.is_empty() {
        return None;
    }
    let message = format!(
        "{} missing, and the cost leaves {} out: {}.",
        job::counted(names.len(), "price is", "prices are"),
        if names.len() == 1 { "it" } else { "them" },
        listed(&names)
    );
    Some(finding(Severity::Note, message))
}

/// The first few names, and the number of the rest.
fn listed(names: &[&str]) -> String {
    /// The most names listed; the rest are counted.
    const TOLD: usize = 3;
    let told = names.get(..TOLD).unwrap_or(names).join("; ");
    match names.len().saturating_sub(TOLD) {
        0 => told,
        more => format!("{told}; and {more} more"),
    }
}
