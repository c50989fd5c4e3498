//! A small seeded generator of random numbers: the same seed gives the same tests on every machine.

/// SplitMix64: a counter in steps of the golden ratio, scrambled by a 64-bit mixer.
///
/// # Source
/// Steele, Lea and Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014, section 5;
/// the constants are those of the public-domain C version of Vigna (2015).
pub struct Generator {
    state: u64,
}

impl Generator {
    /// Starts a stream.
    pub fn new(seed: u64) -> Self {
        Self { state: seed }
    }

    /// Starts one of several streams that share a seed: its start is a random place of the whole cycle of 2⁶⁴.
    pub fn stream(seed: u64, index: u64) -> Self {
        let base = Self::new(seed).next_u64();
        Self::new(Self::new(base ^ index).next_u64())
    }

    /// The next 64 random bits.
    pub fn next_u64(&mut self) -> u64 {
        self.state = self.state.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.state;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// Uniform in 0 ≤ x < 1, from the upper 53 bits.
    pub fn unit(&mut self) -> f64 {
        (self.next_u64() >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// Uniform between two limits.
    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    /// A whole number below `count`.
    pub fn below(&mut self, count: usize) -> usize {
        (self.unit() * count as f64) as usize
    }

    /// Exponentially distributed with mean 1.
    pub fn exponential(&mut self) -> f64 {
        -(1.0 - self.unit()).ln()
    }

    /// A uniform point (x, y) of the open unit disc, by rejection, and its x² + y².
    pub fn disc(&mut self) -> (f64, f64, f64) {
        loop {
            let x = 2.0 * self.unit() - 1.0;
            let y = 2.0 * self.unit() - 1.0;
            let square = x * x + y * y;
            if square < 1.0 {
                return (x, y, square);
            }
        }
    }

    /// A direction uniform over the whole sphere.
    ///
    /// # Source
    /// Marsaglia, "Choosing a point from the surface of a sphere", Ann. Math. Statist. 43 (1972) 645-646.
    pub fn isotropic(&mut self) -> [f64; 3] {
        let (x, y, square) = self.disc();
        let root = 2.0 * (1.0 - square).sqrt();
        [x * root, y * root, 1.0 - 2.0 * square]
    }

    /// A direction by Lambert's law about a normal: the two tangential components and the normal one (> 0).
    ///
    /// A point uniform over the unit disc, lifted onto the hemisphere, has a density ∝ the cosine to the normal,
    /// because a piece of the hemisphere casts a shadow on the disc that is smaller by that cosine.
    pub fn lambert(&mut self) -> (f64, f64, f64) {
        let (x, y, square) = self.disc();
        (x, y, (1.0 - square).sqrt())
    }
}
