//! Findings about two holes, worded the same way by every rule about pairs.

use board::{HoleName, Layout};
use geometry::Web;

/// The pairs of holes that a rule reports, the worst first.
pub struct Pairs<'a> {
    layout: &'a Layout,
    webs: &'a [Web],
    /// Distance of the worst pair, mm.
    pub mm: f64,
    /// One hole of the worst pair.
    pub a: HoleName,
    /// Its other hole.
    pub b: HoleName,
}

impl<'a> Pairs<'a> {
    /// The pairs of these webs, worst first; `None` if there are no webs.
    pub fn of(layout: &'a Layout, webs: &'a [Web]) -> Option<Self> {
        let worst = webs.first()?;
        Some(Self {
            layout,
            webs,
            mm: worst.mm,
            a: layout.holes.get(worst.a)?.name,
            b: layout.holes.get(worst.b)?.name,
        })
    }

    /// Number of pairs.
    pub const fn count(&self) -> usize {
        self.webs.len()
    }

    /// Every hole of the pairs once, in the order of the layout.
    pub fn holes(&self) -> Vec<HoleName> {
        let holes = &self.layout.holes;
        let mut is_in = vec![false; holes.len()];
        for place in self.webs.iter().flat_map(|web| [web.a, web.b]) {
            if let Some(is_in) = is_in.get_mut(place) {
                *is_in = true;
            }
        }
        let marked = holes.iter().zip(is_in).filter(|(_, is_in)| *is_in);
        marked.map(|(hole, _)| hole.name).collect()
    }
}
