//! The subject of a set of sheets, and the words for it in their title blocks.
//!
//! The drilling template, the router template and the sector jig are cut into the same kind of sheets; they differ in the parts
//! on them and in these words.

use board::Board;
use kurbo::{Circle, Point};
use workshop::Workpiece;

use crate::{Item, Shape, plan};

/// The subject of a set of sheets.
pub struct Subject<'a> {
    /// The board it is for, with its title and paper.
    pub board: &'a Board,
    /// The kind of template; empty for the drilling template.
    pub kind: &'static str,
    /// Settings and cautions, one line each.
    pub notes: Vec<String>,
    /// The line about what stops the board, at the top of every sheet; `None` if nothing does.
    pub stop: Option<String>,
    /// The items, in the frame of the board.
    pub items: Vec<Item>,
    /// The holes, which the crosses on joints keep clear of.
    pub mouths: Vec<Circle>,
    /// Its outline, which the key map shows.
    pub outline: Vec<Shape>,
}

impl<'a> Subject<'a> {
    /// The drilling template of a board.
    pub fn template(workpiece: &'a Workpiece) -> Self {
        let board = workpiece.board();
        let edge = Circle::new(Point::ORIGIN, board.blank.radius());
        Self {
            board,
            kind: "",
            notes: Vec::new(),
            stop: None,
            items: plan(workpiece),
            mouths: workpiece.mouths().to_vec(),
            outline: vec![Shape::Circle(edge)],
        }
    }
}
