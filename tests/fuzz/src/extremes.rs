//! Documents at the limits of their ranges: the most holes, grooves, corners, sheets, coats and boards that a file may contain.

use board::{
    Blank, Board, Bore, Bores, Change, Coat, CoatKind, Edit, Filling, FlawKind, FlawShape, HoleId,
    Paper, PieceKind, Rings, Role, SectorJig, StockFlaw, StockOutline,
};
use geometry::{Pattern, PocketShape};

/// A board with every optional part, which the others are based on.
const PLANNED: &str = "a-ring-marbles.json";

/// Documents at the limits of their ranges, by name.
///
/// Empty if `from` lacks the boards of the fixtures.
pub fn extremes(from: &[(String, Board)]) -> Vec<(&'static str, Board)> {
    let Some((_, planned)) = from.iter().find(|(name, _)| name == PLANNED) else {
        return Vec::new();
    };
    vec![
        ("names-among-grooves-9-by-28", grooved(planned, 9, 28)),
        ("names-among-grooves-21-by-52", grooved(planned, 21, 52)),
        ("holes-1000", many_holes(planned, 32, 4, 0)),
        ("holes-5000", many_holes(planned, 200, 4, 0)),
        ("holes-10000", many_holes(planned, 250, 60, 46)),
        ("holes-10000-on-small-paper", on_small_paper(planned)),
        ("edits-2000", edited(planned)),
        ("outline-4000", outlined(planned, 1, 2_000)),
        ("outline-2000-flaws-200", outlined(planned, 200, 10)),
        ("slab-4000", live_edged(planned)),
        ("flaw-along-all-edges", flaw_along(planned)),
        ("knots-200", knotty(planned)),
        ("sector-at-pitch-250", sector(planned, 250.0)),
        ("sheets-1000", sheets(planned)),
        ("boards-200-coats-200", ordered(planned)),
        ("arms-249-across", arms(planned)),
        ("spaces-to-seek", roomy(planned)),
        ("pieces-1440-high", crowded(planned)),
    ]
}

/// A ring of many small holes, ordered as 31 boards, with lines, rings and resin everywhere.
fn many_holes(planned: &Board, spaces: u32, lanes: u32, added: u32) -> Board {
    let players = 24;
    let pitch = 2_300.0 / geometry::ring_radius(1.0, players * spaces);
    let bore = Bore {
        diameter: 0.5 * pitch,
        ..planned.bores.track
    };
    let add = |number: u32| Edit {
        hole: HoleId::new(Role::Extra, 1, number),
        mirrored: true,
        change: Change::Add {
            u: pitch * f64::from(number % 7),
            v: 300.0 + pitch * f64::from(number / 7),
            bore,
        },
    };
    let mut board = Board {
        players,
        spaces,
        home: lanes,
        start: lanes,
        pitch,
        pattern: Pattern::Ring,
        bores: Bores::all(bore),
        blank: Blank {
            diameter: 5_000.0,
            ..planned.blank
        },
        edits: (1..=added).map(add).collect(),
        ..planned.clone()
    };
    board.pocket.shape = PocketShape::Block;
    board.piece.diameter = 0.6 * pitch;
    board.limits.web = 0.1 * pitch;
    board.limits.piece_gap = 0.1 * pitch;
    board.schedule.boards = 31;
    board
}

/// Lines along track and lanes, and a ring around each bore.
fn grooved(planned: &Board, players: u32, spaces: u32) -> Board {
    let mut board = Board {
        players,
        spaces,
        home: 10,
        start: 10,
        pattern: Pattern::Ring,
        blank: Blank {
            diameter: 5_000.0,
            ..planned.blank
        },
        pitch: 14.0,
        ..planned.clone()
    };
    if let Some(grooves) = &mut board.grooves {
        grooves.track = true;
        grooves.home = true;
        grooves.rings = Some(Rings {
            gap: 0.0,
            track: true,
            home: true,
            start: true,
            extra: true,
            center: true,
        });
    }
    board
}

/// The most holes on the smallest sheets for which a thousand sheets are enough.
fn on_small_paper(planned: &Board) -> Board {
    let mut board = many_holes(planned, 250, 60, 46);
    board.template.paper = Paper::A4;
    board
}

/// As many hand edits as a file may have.
fn edited(planned: &Board) -> Board {
    let mut board = many_holes(planned, 250, 60, 0);
    let change = |at: u32| Edit {
        hole: HoleId::new(Role::Track, 1 + at % 24, 1 + at % 250),
        mirrored: at.is_multiple_of(2),
        change: Change::Move {
            u: f64::from(at % 5) * 0.1,
            v: f64::from(at % 7) * 0.1,
        },
    };
    board.edits = (0..2_000).map(change).collect();
    board
}

/// A wavy outline of 2,000 corners, with flaws of this many corners along its edges.
fn outlined(planned: &Board, flaws: u32, corners: u32) -> Board {
    let around = |at: u32, of: u32, wide: f64| {
        let angle = geometry::Angle::TURN * (f64::from(at) / f64::from(of));
        let radius = wide + 20.0 * (angle * 31.0).sin();
        [
            1_500.0 + 2.0 * radius * angle.cos(),
            700.0 + radius * angle.sin(),
        ]
    };
    let flaw = |number: u32| {
        let of = flaws * corners;
        let at = |corner: u32, wide| around(number * corners + corner, of, wide);
        let half = corners / 2;
        let outer = (0..half).map(|corner| at(2 * corner, 600.0));
        let inner = (0..half).rev().map(|corner| at(2 * corner, 590.0));
        StockFlaw {
            kind: FlawKind::Sapwood,
            shape: FlawShape::Area {
                corners: outer.chain(inner).collect(),
            },
        }
    };
    let mut board = planned.clone();
    board.stock.outline = StockOutline::Corners {
        corners: (0..2_000).map(|at| around(at, 2_000, 600.0)).collect(),
    };
    board.stock.flaws = (0..flaws).map(flaw).collect();
    board
}

/// A slab with as many measurements along both live edges as allowed.
fn live_edged(planned: &Board) -> Board {
    let mut board = planned.clone();
    let edge = |by: u32| (0..2_000_u32).map(move |at| f64::from(at * by % 29));
    board.stock.outline = StockOutline::Slab {
        length: 3_000.0,
        width: 1_000.0,
        lower: edge(7).collect(),
        upper: edge(11).collect(),
    };
    board.stock.flaws.clear();
    board
}

/// A flaw with exactly the blank's edges.
fn flaw_along(planned: &Board) -> Board {
    let mut board = outlined(planned, 0, 0);
    if let StockOutline::Corners { corners } = &board.stock.outline {
        board.stock.flaws = vec![StockFlaw {
            kind: FlawKind::Crack,
            shape: FlawShape::Area {
                corners: corners.clone(),
            },
        }];
    }
    board
}

/// As many knots as a blank may have.
fn knotty(planned: &Board) -> Board {
    let mut board = live_edged(planned);
    let knot = |at: u32| StockFlaw {
        kind: FlawKind::Knot,
        shape: FlawShape::Round {
            x: f64::from(at * 613 % 3_000),
            y: f64::from(at * 137 % 1_000),
            diameter: 5.0 + f64::from(at % 30),
        },
    };
    board.stock.flaws = (0..200).map(knot).collect();
    board
}

/// A jig of one wide sector.
fn sector(planned: &Board, pitch: f64) -> Board {
    Board {
        players: 3,
        spaces: 20,
        pitch,
        sector_jig: Some(SectorJig::default()),
        ..planned.clone()
    }
}

/// A template with as many sheets as allowed.
fn sheets(planned: &Board) -> Board {
    let mut board = many_holes(planned, 100, 10, 0);
    board.template.paper = Paper::Custom {
        width: 230.0,
        height: 180.0,
    };
    board.template.margin = 5.0;
    board.template.overlap = 10.0;
    board
}

/// The largest order, with the most coats and small batches of resin.
fn ordered(planned: &Board) -> Board {
    let mut board = planned.clone();
    board.schedule.boards = 200;
    let layer = |at: usize| Coat {
        coats: 20,
        ..Coat::of(CoatKind::ALL[at % CoatKind::ALL.len()], 24.0)
    };
    board.finish = (0..10).map(layer).collect();
    board.filling = Some(Filling {
        batch: 0.1,
        ..board.filling.unwrap_or_default()
    });
    board
}

/// Arms as wide as possible.
fn arms(planned: &Board) -> Board {
    Board {
        players: 3,
        pattern: Pattern::Arms { across: 249 },
        spaces: 250,
        pitch: 8.0,
        ..many_holes(planned, 250, 4, 0)
    }
}

/// A board with space for many more track spaces than it has.
fn roomy(planned: &Board) -> Board {
    Board {
        spaces: 1,
        home: 0,
        start: 0,
        ..many_holes(planned, 250, 0, 0)
    }
}

/// As many pieces as allowed, as tall as allowed, in pockets where they cast shadows on each other.
fn crowded(planned: &Board) -> Board {
    let mut board = many_holes(planned, 60, 0, 0);
    board.start = 60;
    board.piece.kind = PieceKind::Peg;
    board.piece.height = 500.0;
    board.piece.diameter = 20.0;
    board
}
