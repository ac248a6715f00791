//! Rule: colors stand out from the wood.

use board::{Measure, Medium, Quantity, Rgb, show_number};

use super::listed;
use crate::check::{Finding, Rule, Severity};
use crate::colors::seen_on;
use crate::colors::sight::{
    ALIKE, LEAST_CONTRAST, SAME, Sight, color_distance, contrast, distance_to,
};
use crate::colors::used::{Place, Used, used};
use crate::{Mend, Workpiece, tone_of};

/// The rule in words, as the list of rules shows it.
pub const STATEMENT: &str = "Marks have a contrast of 3 to 1 or more against the wood (W3C WCAG 2.2, criterion 1.4.11), and \
     every other colored part differs from it by a CIEDE2000 distance of 9 for every kind of color vision (our own limit). Dye \
     and stain are seen with the wood's own tone, which is from memory: try them on an offcut.";

/// Findings for marks with too little contrast, colors close to that of the wood, and invisible ones.
pub fn check(workpiece: &Workpiece) -> Vec<Finding> {
    let wood = tone_of(workpiece.board());
    let all = used(workpiece);
    let (marks, rest): (Vec<&Used>, Vec<&Used>) =
        all.iter().partition(|one| one.place == Place::Mark);
    let mut findings: Vec<Finding> = faint_marks(workpiece, wood, &marks).into_iter().collect();
    let near = |one: &&&Used| to_wood(wood, one).1 < ALIKE;
    let (same, near): (Vec<&Used>, Vec<&Used>) = rest
        .iter()
        .filter(near)
        .copied()
        .partition(|one| color_distance(wood, seen_on(wood, one.tint)) < SAME);
    findings.extend(finding_of(wood, &same, "match the wood and cannot be seen"));
    findings.extend(finding_of(
        wood,
        &near,
        "are too close to the color of the wood",
    ));
    findings
}

/// The kind of sight to which a color is closest to that of the wood, and its distance.
fn to_wood(wood: Rgb, one: &Used) -> (Sight, f64) {
    let seen = seen_on(wood, one.tint);
    let distances = Sight::ALL.map(|sight| (sight, distance_to(sight, wood, seen)));
    let usual = distances.first().filter(|(_, usual)| *usual < ALIKE);
    let worst = usual.or_else(|| distances.iter().min_by(|a, b| a.1.total_cmp(&b.1)));
    worst.copied().unwrap_or((Sight::Normal, f64::INFINITY))
}

/// One finding for all parts with the same fault; `None` without such parts.
fn finding_of(wood: Rgb, parts: &[&Used], fault: &str) -> Option<Finding> {
    let nearest = parts.iter().map(|one| to_wood(wood, one).1);
    let nearest = nearest.min_by(f64::total_cmp)?;
    let words = |one: &&Used| match to_wood(wood, one).0 {
        Sight::Normal => one.words(),
        sight => format!("{} for {}", one.words(), sight.label()),
    };
    let who = listed(parts.iter().map(words).collect());
    // Rounded down, so that the number shown never reaches the limit that the color misses.
    let distance = |value: f64| Measure::new(Quantity::Number, (value * 10.0).floor() / 10.0);
    let [is, least] = [nearest, ALIKE].map(|value| show_number(distance(value).value, 1));
    let is_painted = parts.iter().all(|one| one.tint.medium == Medium::Paint);
    let or_paint = if is_painted { "" } else { ", or paint" };
    let message = format!(
        "colored parts {fault}: {who}; the color distance is {is} and should be {least} or more, so choose a lighter or darker \
         color{or_paint}"
    );
    let holes = parts.iter().flat_map(|one| one.holes.iter().copied());
    Some(
        Finding::new(Severity::Caution, Rule::ColorOnWood, message)
            .measuring(distance(nearest), distance(ALIKE))
            .about(holes.collect())
            .mended_by(&[Mend::ColorsOffWood]),
    )
}

/// Marks with too little contrast; a line around them provides it.
fn faint_marks(workpiece: &Workpiece, wood: Rgb, marks: &[&Used]) -> Option<Finding> {
    if workpiece
        .board()
        .colors
        .marks
        .is_some_and(|made| made.outline)
    {
        return None;
    }
    let ratio = |one: &&&Used| contrast(wood, seen_on(wood, one.tint));
    let faint: Vec<&&Used> = marks
        .iter()
        .filter(|one| ratio(one) < LEAST_CONTRAST)
        .collect();
    let least = faint.iter().map(ratio).min_by(f64::total_cmp)?;
    let who = listed(faint.iter().map(|one| one.player.to_string()).collect());
    let marks = if faint.len() == 1 {
        format!("the mark of player {who} stands")
    } else {
        format!("marks of players {who} stand")
    };
    let measure = |value: f64| Measure::new(Quantity::Number, (value * 100.0).floor() / 100.0);
    let message = format!(
        "{marks} out too little from the wood: the contrast is {} to 1 and should be {} to 1 or more; draw a line around the marks",
        show_number(measure(least).value, 2),
        show_number(LEAST_CONTRAST, 2)
    );
    let holes = faint.iter().flat_map(|one| one.holes.iter().copied());
    Some(
        Finding::new(Severity::Caution, Rule::ColorOnWood, message)
            .measuring(measure(least), measure(LEAST_CONTRAST))
            .about(holes.collect())
            .mended_by(&[Mend::OutlineMarks]),
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Board, BoreColor, Colored, Grooves, Hue, MarksMade, Wood};

    fn of(board: &Board) -> Vec<Finding> {
        check(&Workpiece::of(board).unwrap())
    }

    fn wooden(species: &str) -> Board {
        let wood = Wood {
            species: species.into(),
            ..Wood::default()
        };
        Board {
            wood: Some(wood),
            ..Board::default()
        }
    }

    #[test]
    fn bare_wood_has_no_findings() {
        assert_eq!(of(&wooden("black-walnut")), []);
    }

    /// Orange, sky blue and yellow have too little contrast on light wood, as on white; blue has too little on walnut.
    #[test]
    fn marks_need_three_to_one_or_a_line_around_them() {
        for (species, faint) in [
            ("sugar-maple", "1, 2, 3 and 2 more"),
            ("black-walnut", "5 and 6"),
        ] {
            let mut board = wooden(species);
            board.colors.marks = Some(MarksMade::default());
            let found = of(&board);
            assert!(found[0].message.contains(faint), "{}", found[0].message);
            let needed = "to 1 and should be 3 to 1 or more";
            assert!(found[0].message.contains(needed), "{}", found[0].message);
            assert_eq!(found[0].measures(board.units), None);
            let outlined = Mend::OutlineMarks.applied(&board).unwrap();
            assert_eq!(of(&outlined), []);
        }
    }

    #[test]
    fn a_color_equal_to_the_wood_is_invisible() {
        let mut board = wooden("black-cherry");
        board.grooves = Some(Grooves::default());
        let color = tone_of(&board);
        board.colors.grooves = Colored {
            hue: Hue::One { color },
            medium: Medium::Paint,
        };
        let found = of(&board);
        assert!(found[0].message.contains("match the wood"), "{found:?}");
        // The grooves are painted already, and the measure stands in the sentence.
        assert!(
            found[0]
                .message
                .ends_with("choose a lighter or darker color."),
            "{found:?}"
        );
        assert_eq!(found[0].measures(board.units), None);
        assert!(found[0].measured.unwrap().value < 0.1);
    }

    #[test]
    fn a_light_dye_is_invisible_on_dark_wood() {
        let mut board = wooden("black-walnut");
        board.colors.home = BoreColor {
            hue: Hue::One {
                color: Rgb::named("yellow").unwrap(),
            },
            medium: Medium::Dye,
            ..BoreColor::default()
        };
        let found = of(&board);
        assert!(found[0].message.ends_with("color, or paint."), "{found:?}");
        board.colors.home.medium = Medium::Paint;
        assert_eq!(of(&board), []);
    }
}
