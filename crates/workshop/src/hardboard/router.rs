//! The hardboard template for a router with a guide bushing, as a board of its own.

use board::{
    Blank, Board, Bore, Bottom, Center, Hole, HoleId, Layout, Marking, Panel, Role, Router,
    Template, TemplateCenter,
};

use crate::Workpiece;

/// The template of a board as a workpiece: the holes in the hardboard, laid out like the board.
///
/// Each hole is wider than its bore by the bushing's diameter less the bit's, so that a bit as wide as the bore is held at its
/// center, and a narrower one is guided around its rim: an inside opening is larger than the finished one by twice the offset,
/// and the offset is half the bushing less half the bit (trade page, not a standard). All holes go through. The bore at the
/// center is left out: the pin's hole, or none, takes its place, as the router settings specify. Bushing holes need their
/// outlines, so outlines are drawn whatever the marking of the board's own template.
pub(crate) fn template(workpiece: &Workpiece, router: Router) -> Workpiece {
    let (board, layout) = (workpiece.board(), workpiece.layout());
    let center = match router.center {
        TemplateCenter::Undrilled => Center::Nothing,
        TemplateCenter::Pilot => Center::Pivot {
            diameter: board.drilled_center().pilot().unwrap_or(board.jig.pin),
            depth: router.hardboard,
        },
    };
    let mut bores = board.bores;
    for bore in [&mut bores.track, &mut bores.home, &mut bores.start] {
        *bore = through(*bore, router);
    }
    let template = Board {
        bores,
        center,
        blank: Blank {
            thickness: router.hardboard,
            roundover: 0.0,
            ..board.blank
        },
        template: Template {
            marking: Marking::Both,
            ..board.template
        },
        panel: Panel::default(),
        screws: Vec::new(),
        recess: None,
        grooves: None,
        // The layout already includes the hand edits.
        edits: Vec::new(),
        ..board.clone()
    };
    let mut holes: Vec<Hole> = routed(layout).copied().collect();
    for hole in &mut holes {
        hole.bore = through(hole.bore, router);
    }
    holes.extend(center.bore().map(|bore| Hole {
        name: HoleId::CENTER.named(1),
        center: geometry::Point::ORIGIN,
        bore,
    }));
    let wide = Layout {
        holes,
        ..layout.clone()
    };
    Workpiece::laid(template, wide, workpiece.printer().cloned())
}

/// The plunge setting for a bore, mm, from where the bit touches the top of the template: the router stands on the
/// hardboard.
///
/// ```
/// use board::{Bore, Bottom, Router};
/// let bore = Bore { diameter: 12.0, depth: 5.0, bottom: Bottom::Flat };
/// let router = Router { hardboard: 6.0, ..Router::default() };
/// assert_eq!(workshop::plunge(bore, router), 11.0);
/// ```
pub fn plunge(bore: Bore, router: Router) -> f64 {
    bore.depth + router.hardboard
}

/// Bores that a router makes with one plunge setting and one size of hole in the template.
#[derive(Debug, Clone, PartialEq)]
pub struct RouterSetting {
    /// The bore.
    pub bore: Bore,
    /// Diameter of the hole in the template, mm.
    pub opening: f64,
    /// The plunge setting, mm.
    pub plunge: f64,
    /// How the bit makes the bore.
    pub way: RouterWay,
    /// Number of holes of each role, in the order of hole tables.
    pub holes: Vec<(Role, usize)>,
}

/// A plunge setting of the router, and the roles of the holes it is for.
#[derive(Debug, Clone, PartialEq)]
pub struct PlungeSetting {
    /// The setting, mm from the top of the template.
    pub mm: f64,
    /// The roles, in the order of hole tables.
    pub roles: Vec<Role>,
}

/// How a bit makes a bore when the bushing is guided around its hole.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RouterWay {
    /// The bit is wider than the bore and cannot make it.
    TooWide,
    /// The bit is as wide as the bore, and the bushing fills its hole.
    Plunge,
    /// The bushing is guided once around its hole.
    Round,
    /// Once around would leave a post in the middle, so the bit also goes across.
    RoundAndAcross,
}

impl RouterWay {
    /// How a bit makes a bore of this diameter, mm.
    pub(super) fn of(bore: f64, bit: f64) -> Self {
        // Rounding slack for a bit that is exactly as wide.
        let hair = 1e-9;
        if bit > bore + hair {
            Self::TooWide
        } else if bit >= bore - hair {
            Self::Plunge
        } else if bit >= bore / 2.0 - hair {
            Self::Round
        } else {
            Self::RoundAndAcross
        }
    }

    /// Its name on sheets.
    pub const fn label(self) -> &'static str {
        match self {
            Self::TooWide => "does not fit: use a narrower bit",
            Self::Plunge => "plunge straight down",
            Self::Round => "plunge, then clockwise around the rim",
            Self::RoundAndAcross => "clockwise around the rim, then across the middle",
        }
    }
}

/// The settings of a router for all bores of a board except the one at the center, in the order of the hole table.
///
/// ```
/// use board::{Board, Router};
/// use workshop::{RouterWay, router_settings};
/// let layout = board::layout(&Board::default())?;
/// let router = Router { bushing: 16.0, bit: 12.0, hardboard: 6.0, ..Router::default() };
/// let settings = router_settings(&layout, router);
/// // All bores of this board are alike: a bit as wide as they are, and a hole 4 mm wider.
/// assert_eq!(settings.len(), 1);
/// assert_eq!((settings[0].opening, settings[0].way), (16.0, RouterWay::Plunge));
/// # Ok::<(), board::BuildError>(())
/// ```
pub fn router_settings(layout: &Layout, router: Router) -> Vec<RouterSetting> {
    let mut settings: Vec<RouterSetting> = Vec::new();
    for hole in routed(layout) {
        let role = hole.name.id().role();
        let Some(known) = settings
            .iter_mut()
            .find(|setting| setting.bore == hole.bore)
        else {
            settings.push(RouterSetting {
                bore: hole.bore,
                opening: through(hole.bore, router).diameter,
                plunge: plunge(hole.bore, router),
                way: RouterWay::of(hole.bore.cutter(), router.bit),
                holes: vec![(role, 1)],
            });
            continue;
        };
        match known.holes.iter_mut().find(|(known, _)| *known == role) {
            Some((_, count)) => *count += 1,
            None => known.holes.push((role, 1)),
        }
    }
    settings
}

/// Each plunge setting, mm, with its roles, in the order of the hole table.
pub fn plunges(settings: &[RouterSetting]) -> Vec<PlungeSetting> {
    let mut plunges: Vec<PlungeSetting> = Vec::new();
    for setting in settings {
        let roles = setting.holes.iter().map(|(role, _)| *role);
        match plunges.iter_mut().find(|known| known.mm == setting.plunge) {
            Some(known) => {
                let new: Vec<Role> = roles.filter(|role| !known.roles.contains(role)).collect();
                known.roles.extend(new);
            }
            None => plunges.push(PlungeSetting {
                mm: setting.plunge,
                roles: roles.collect(),
            }),
        }
    }
    plunges
}

/// The routed holes: all except the one at the center.
pub fn routed(layout: &Layout) -> impl Iterator<Item = &Hole> {
    layout
        .holes
        .iter()
        .filter(|hole| hole.name.id() != HoleId::CENTER)
}

/// The template's hole for a bore.
fn through(bore: Bore, router: Router) -> Bore {
    Bore {
        diameter: bore.cutter() + router.wider(),
        depth: router.hardboard,
        bottom: Bottom::Flat,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use board::{Bores, Change, Edit, INCH, layout};
    use testkit::assert_near;

    fn router(bushing: f64, bit: f64) -> Router {
        Router {
            bushing,
            bit,
            ..Router::default()
        }
    }

    fn flat(diameter: f64, depth: f64) -> Bore {
        Bore {
            diameter,
            depth,
            bottom: Bottom::Flat,
        }
    }

    /// Offsets that bushings are sold by: 1/8 in for 3/4 and 1/2 in, 3 mm for 15 and 9 mm. With a bushing of 3/4 in and a bit
    /// of 1/4 in, an opening of 8 × 4 in needs one of 8 1/2 × 4 1/2 in; with 5/16 and 1/4 in, one of 6 in needs 6 1/16 in
    /// (trade pages, not a standard).
    fn made(board: &Board, router: Router) -> (Board, Layout) {
        let made = template(&Workpiece::of(board).unwrap(), router);
        (made.board().clone(), made.layout().clone())
    }

    #[test]
    fn holes_are_wider_by_twice_the_published_offset() {
        for (bushing, bit, offset) in [(0.75 * INCH, 0.5 * INCH, 0.125 * INCH), (15.0, 9.0, 3.0)] {
            assert_near!(router(bushing, bit).wider(), 2.0 * offset, 1e-12);
        }
        let opening = |bore: f64, bushing: f64, bit: f64| {
            through(flat(bore * INCH, 5.0), router(bushing * INCH, bit * INCH)).diameter / INCH
        };
        assert_near!(opening(8.0, 0.75, 0.25), 8.5, 1e-12);
        assert_near!(opening(4.0, 0.75, 0.25), 4.5, 1e-12);
        assert_near!(opening(6.0, 5.0 / 16.0, 0.25), 6.0625, 1e-12);
    }

    #[test]
    fn every_hole_keeps_its_center_and_the_pin_its_pilot_hole() {
        let board = Board::default();
        let before = layout(&board).unwrap();
        let (template, after) = made(&board, router(16.0, 12.0));
        assert_eq!(after.holes.len(), before.holes.len());
        for (wide, hole) in routed(&after).zip(&before.holes) {
            assert_eq!((wide.name, wide.center), (hole.name, hole.center));
            assert_near!(wide.bore.diameter, hole.bore.diameter + 4.0, 1e-12);
        }
        let pin = after.hole(HoleId::CENTER).unwrap();
        assert_eq!(
            (template.center.pilot(), pin.bore.diameter),
            (Some(6.0), 6.0)
        );
    }

    #[test]
    fn an_undrilled_center_is_only_a_mark() {
        let board = Board::default();
        let undrilled = Router {
            center: TemplateCenter::Undrilled,
            ..Router::default()
        };
        let (template, wide) = made(&board, undrilled);
        assert_eq!(template.center, Center::Nothing);
        assert_eq!(wide.hole(HoleId::CENTER), None);
    }

    /// The pin's hole is not the bushing's, and a hand edit of the center is not applied twice.
    #[test]
    fn a_removed_center_gets_the_jigs_pin_hole() {
        let board = Board {
            edits: vec![Edit {
                hole: HoleId::CENTER,
                mirrored: false,
                change: Change::Drop,
            }],
            ..Board::default()
        };
        let (template, wide) = made(&board, Router::default());
        let pin = wide.hole(HoleId::CENTER).unwrap().bore.diameter;
        assert_eq!(template.drilled_center().pilot(), Some(board.jig.pin));
        assert_near!(pin, board.jig.pin, 0.0);
    }

    /// The bit for a shallow round bottom is as wide as its ball: 15 mm for a mouth of 12 mm, 3 mm deep.
    #[test]
    fn a_bit_too_wide_for_the_bore_does_not_plunge() {
        let way = |bore, bit| {
            let board = Board {
                bores: Bores::all(bore),
                ..Board::default()
            };
            let settings = router_settings(&layout(&board).unwrap(), router(bit + 4.0, bit));
            (settings[0].way, settings[0].opening)
        };
        assert_eq!(way(flat(12.0, 5.0), 12.0), (RouterWay::Plunge, 16.0));
        assert_eq!(way(flat(12.0, 5.0), 12.1).0, RouterWay::TooWide);
        let ball = Bore {
            bottom: Bottom::Ball,
            ..flat(12.0, 3.0)
        };
        assert_eq!(way(ball, 15.0), (RouterWay::Plunge, 19.0));
        assert_eq!(way(ball, 15.1).0, RouterWay::TooWide);
    }

    #[test]
    fn each_plunge_is_the_depth_of_the_bore_plus_the_hardboard() {
        use Role::{Home, Start, Track};
        let mut board = Board::default();
        board.bores = Bores {
            start: flat(30.0, 8.0),
            ..board.bores
        };
        let wide = flat(16.0, 4.0);
        board.edits = vec![Edit {
            hole: "T1-1".parse().unwrap(),
            mirrored: true,
            change: Change::Bore { bore: wide },
        }];
        let settings = router_settings(&layout(&board).unwrap(), router(16.0, 12.0));
        let setting = |mm, roles| PlungeSetting { mm, roles };
        let depths = [
            setting(10.0, vec![Track]),
            setting(11.0, vec![Track, Home]),
            setting(14.0, vec![Start]),
        ];
        assert_eq!(plunges(&settings), depths);
        let told: Vec<_> = settings
            .iter()
            .map(|setting| {
                (
                    setting.opening,
                    setting.plunge,
                    setting.way,
                    setting.holes.clone(),
                )
            })
            .collect();
        // Bores 5 mm deep in the default board, under hardboard of 6 mm.
        assert_eq!(
            told,
            [
                (20.0, 10.0, RouterWay::Round, vec![(Track, 6)]),
                (16.0, 11.0, RouterWay::Plunge, vec![(Track, 90), (Home, 30)]),
                (34.0, 14.0, RouterWay::RoundAndAcross, vec![(Start, 18)]),
            ]
        );
    }
}
