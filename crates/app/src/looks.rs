//! The view over the drawing that each stage shows: the one that fits its work, until the maker chooses another there.

use std::collections::BTreeMap;

use board::{Board, StockOutline};
use serde::{Deserialize, Serialize};

use crate::stage::Stage;
use crate::view::Face;

/// The views that the maker has chosen by hand, by their names and those of the stages; the others are as they fit.
#[derive(Debug, Clone, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(transparent)]
pub struct Looks(BTreeMap<String, String>);

impl Looks {
    /// The view of a stage: the one chosen there by hand, or the one that fits.
    pub fn of(&self, stage: Stage, board: &Board) -> Face {
        let kept = self.0.get(stage.label());
        let chosen = kept.and_then(|name| Face::ALL.into_iter().find(|face| face.label() == name));
        chosen.unwrap_or_else(|| fitting(stage, board))
    }

    /// Keeps a view for a stage; the one that fits is not kept, so that it follows the board.
    pub fn choose(&mut self, stage: Stage, face: Face, board: &Board) {
        if face == fitting(stage, board) {
            self.0.remove(stage.label());
        } else {
            self.0.insert(stage.label().into(), face.label().into());
        }
    }
}

/// The view in which the work of a stage is seen best on a board as it is planned now.
fn fitting(stage: Stage, board: &Board) -> Face {
    match stage {
        Stage::Wood if board.stock.outline != StockOutline::Unknown => Face::Blank,
        Stage::Bench if board.recess.is_some() => Face::Section,
        Stage::LayOut | Stage::Wood | Stage::Bench => Face::Board,
        Stage::Template => Face::Sheets,
        Stage::Drill => Face::Section,
        // Without coats there is no film, and the colors are seen on the finished board.
        Stage::Finish if board.finish.is_empty() => Face::Proof,
        Stage::Finish => Face::Film,
        Stage::HandOver => Face::Calendar,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_a_view_chosen_by_hand_is_kept() {
        let board = Board::default();
        let mut looks = Looks::default();
        looks.choose(Stage::Drill, Face::Section, &board);
        assert_eq!(looks, Looks::default());
        looks.choose(Stage::Drill, Face::Board, &board);
        let kept = serde_json::to_string(&looks).unwrap();
        assert_eq!(kept, r#"{"Drill":"Plan"}"#);
        assert_eq!(serde_json::from_str::<Looks>(&kept).unwrap(), looks);
        assert_eq!(looks.of(Stage::Drill, &board), Face::Board);
        looks.choose(Stage::Drill, Face::Section, &board);
        assert_eq!(looks, Looks::default());
    }

    #[test]
    fn a_name_that_no_view_has_leaves_the_view_that_fits() {
        let looks: Looks = serde_json::from_str(r#"{"Drill":"Cellar"}"#).unwrap();
        assert_eq!(looks.of(Stage::Drill, &Board::default()), Face::Section);
    }
}
