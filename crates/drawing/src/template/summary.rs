//! A board's main numbers in words, for the foot of drawings of the whole board.

use board::{Board, Units, show_length, show_setting};

/// A board's main numbers, as lines of words.
pub fn summary(board: &Board, holes: usize) -> Vec<String> {
    let length = |mm| show_length(mm, board.units);
    vec![
        format!(
            "{} players, {} spaces, {} home and {} start holes each; {holes} holes in all",
            board.players, board.spaces, board.home, board.start
        ),
        format!(
            "Pitch {}, board Ø {}, thickness {}, roundover {}",
            length(board.pitch),
            length(board.blank.diameter),
            length(board.blank.thickness),
            length(board.blank.roundover)
        ),
        bores(board),
        true_size(board),
    ]
}

/// The words below a drawing of the whole board.
pub fn true_size(board: &Board) -> String {
    let unit = match board.units {
        Units::Mm => "millimeters",
        Units::Inch(_) => "inches",
    };
    format!("Lengths in {unit}; drawn at true size. Measure the bars before drilling.")
}

/// Diameter and depth of the bores: once where all roles have the same, otherwise for each.
fn bores(board: &Board) -> String {
    let bore = |bore: board::Bore| {
        format!(
            "Ø {} × {} deep",
            show_setting(bore.diameter, board.units),
            show_setting(bore.depth, board.units)
        )
    };
    let roles = board.bores;
    if roles.track == roles.home && roles.track == roles.start {
        return format!(
            "Bores {}, {}",
            bore(roles.track),
            roles.track.bottom.label()
        );
    }
    format!(
        "Bores: track {}; home {}; start {}",
        bore(roles.track),
        bore(roles.home),
        bore(roles.start)
    )
}
