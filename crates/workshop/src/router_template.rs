//! The hardboard template that a router with a guide bushing follows, as a board of its own.

use board::{Blank, Board, Bore, Bottom, Center, Layout, Panel, Router, TemplateCenter};

/// The template of a board: what is drilled into the hardboard, laid out like the board.
///
/// Each hole is wider than its bore by the bushing's diameter less the bit's, so that a bit as wide as the bore is held in
/// the middle, and a narrower one is led round its rim: an inside opening is larger than the finished one by twice the
/// offset, and the offset is half the bushing less half the bit (common trade rule). All go through.
pub fn router_template(board: &Board, layout: &Layout, router: Router) -> (Board, Layout) {
    let through = |bore: Bore| Bore {
        diameter: bore.diameter + router.wider(),
        depth: router.hardboard,
        bottom: Bottom::Flat,
    };
    let mut bores = board.bores;
    for bore in [&mut bores.track, &mut bores.home, &mut bores.start] {
        *bore = through(*bore);
    }
    let pilot = board.center.pilot().unwrap_or(board.jig.pin);
    let center = match router.center {
        TemplateCenter::Undrilled => Center::Nothing,
        TemplateCenter::Pilot => Center::Pivot {
            diameter: pilot,
            depth: router.hardboard,
        },
    };
    let mut wide = layout.clone();
    wide.holes
        .retain(|hole| hole.name.id() != board::HoleId::CENTER);
    for hole in &mut wide.holes {
        hole.bore = through(hole.bore);
    }
    let template = Board {
        title: format!("Router template: {}", board.title),
        bores,
        center,
        blank: Blank {
            thickness: router.hardboard,
            roundover: 0.0,
            ..board.blank
        },
        panel: Panel::default(),
        screws: Vec::new(),
        recess: None,
        grooves: None,
        ..board.clone()
    };
    (template, wide)
}

/// What the plunge is set to for a bore, mm, from where the bit touches the top of the template: the router stands on the
/// hardboard.
pub fn plunge(bore: Bore, router: Router) -> f64 {
    bore.depth + router.hardboard
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{INCH, layout};
    use testkit::assert_near;

    fn router(bushing: f64, bit: f64) -> Router {
        Router {
            bushing,
            bit,
            ..Router::default()
        }
    }

    /// Offsets as bushings are sold by: 1/8 in for 3/4 and 1/2 in, 3 mm for 15 and 9 mm; an opening of 8 in needs one of
    /// 8 1/2 in with a bushing of 3/4 and a bit of 1/4 in (published rule: opening plus bushing less bit).
    #[test]
    fn holes_are_wider_by_twice_the_published_offset() {
        for (bushing, bit, offset) in [(0.75 * INCH, 0.5 * INCH, 0.125 * INCH), (15.0, 9.0, 3.0)] {
            assert_near!(router(bushing, bit).wider(), 2.0 * offset, 1e-12);
        }
        assert_near!(
            8.0 * INCH + router(0.75 * INCH, 0.25 * INCH).wider(),
            8.5 * INCH,
            1e-12
        );
    }

    #[test]
    fn every_hole_keeps_its_center_and_the_pin_its_pilot() {
        let board = Board::default();
        let before = layout(&board).unwrap();
        let (template, after) = router_template(&board, &before, router(16.0, 12.0));
        assert_eq!(after.holes.len(), before.holes.len() - 1);
        for (wide, hole) in after.holes.iter().zip(&before.holes) {
            assert_eq!(wide.center, hole.center);
            assert_near!(wide.bore.diameter, hole.bore.diameter + 4.0, 1e-12);
        }
        assert_eq!(template.center.pilot(), Some(6.0));
        let undrilled = Router {
            center: TemplateCenter::Undrilled,
            ..Router::default()
        };
        assert_eq!(
            router_template(&board, &before, undrilled).0.center,
            Center::Nothing
        );
    }
}
