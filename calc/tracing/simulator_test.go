package tracing

import (
	"bytes"
	"image"
	"image/jpeg"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
)

// scene is a simulated photograph: a card on a table, a stone on it, a phone
// above. It shares with the tracer the places of the card's marks and nothing
// else: it draws by rays through a thick stone, in linear light.
type scene struct {
	width, height         int
	eyeMM                 float64    // from the aimed place to the camera
	tilt, tiltTo, spin    float64    // radians
	aim                   Place      // what the phone points at
	film                  float64    // focal length as for 35 mm film
	bend                  float64    // radial distortion
	stone                 gem        // on the card
	at                    Place      // where it lies
	sun                   [3]float64 // towards the light
	ambient               float64
	light                 [3]float64 // of the paper's brightest place
	falloff, falloffTo    float64
	blurPx, noise, motion float64
	quality               int
	fingers               []Place
	// What phones do besides: a tone curve's strength, sharpening, light lost
	// towards the corners; and what a room does: the colour of its shadows.
	curve, sharpen, vignette float64
	shadowTint               [3]float64
	rng                      *rand.Rand
	// seed names the scene among kept photographs.
	seed string
}

// gem is a stone: an outline by its radius, a side and a dome.
type gem struct {
	name                  string
	radius                func(angle float64) float64
	edgeMM, sideMM, topMM float64
	lean, bevelMM         float64
	colour                [3]float64
	veins, bands          float64
	// web is how much of its colour a stone loses along its matrix, a net of
	// brown lines; spots how much it varies from patch to patch.
	web, spots float64
	seed       uint64
	shine      float64
	// rim is how much of a translucent stone's colour its thin edge lacks, glow
	// how much coloured light it throws on the card beside it.
	rim, glow                           float64
	window                              bool // glossy: it mirrors a window, not the sun alone
	clear                               bool
	meanRadius, leastRadius, mostRadius float64
}

func (g *gem) settle() {
	g.meanRadius, g.leastRadius, g.mostRadius = 0, math.Inf(1), 0
	const n = 8192
	table := make([]float64, n+1)
	for i := range table {
		r := g.radius(float64(i) * 2 * math.Pi / n)
		table[i] = r
		g.meanRadius += r / (n + 1)
		g.leastRadius, g.mostRadius = math.Min(g.leastRadius, r), math.Max(g.mostRadius, r)
	}
	// Drawing asks for it millions of times.
	g.radius = func(angle float64) float64 {
		at := angle / (2 * math.Pi)
		at = (at - math.Floor(at)) * n
		i := min(int(at), n-1)
		return table[i] + (at-float64(i))*(table[i+1]-table[i])
	}
}

// share is the stone's width at a height, as a share of its widest, and how fast
// that falls.
func (g *gem) share(z float64) float64 {
	a := g.meanRadius
	if z < g.edgeMM {
		return 1 - g.bevelMM/a*(1-z/g.edgeMM)
	}
	shoulder := g.edgeMM + g.sideMM
	if z < shoulder {
		return 1 - math.Tan(g.lean)*(z-g.edgeMM)/a
	}
	s := 1 - math.Tan(g.lean)*g.sideMM/a
	q := (z - shoulder) / (g.topMM - shoulder)
	return s * math.Sqrt(math.Max(0, 1-q*q))
}

func (g *gem) inside(x, y, z float64) bool {
	if z < 0 || z >= g.topMM {
		return false
	}
	d := math.Hypot(x, y)
	if d >= g.mostRadius {
		return false
	}
	share := g.share(z)
	return d < g.leastRadius*share || d < g.mostRadius*share && d < g.radius(math.Atan2(y, x))*share
}

// outline is the stone's widest line, y up.
func (g *gem) outline() [][2]float64 {
	out := make([][2]float64, 1440)
	for i := range out {
		a := float64(i) * math.Pi / 720
		s, c := math.Sincos(-a)
		r := g.radius(-a)
		out[i] = [2]float64{r * c, -r * s}
	}
	return out
}

const inkLight, paperLight, printStep = 0.045, 0.86, 0.02

// printed is the card as ink.
var printed = func() (ink []bool) {
	w, h := int(CardWidthMM/printStep), int(CardHeightMM/printStep)
	ink = make([]bool, w*h)
	fill := func(r Rect, v bool) {
		for y := int((r.Top + CardHeightMM/2) / printStep); y < int((r.Bottom+CardHeightMM/2)/printStep); y++ {
			for x := int((r.Left + CardWidthMM/2) / printStep); x < int((r.Right+CardWidthMM/2)/printStep); x++ {
				ink[y*w+x] = v
			}
		}
	}
	for _, m := range Marks {
		for i, d := range []float64{3.5, 2.5, 1.5} {
			fill(Rect{m.X - d, m.Y - d, m.X + d, m.Y + d}, i != 1)
		}
	}
	for _, c := range Checks() {
		fill(c, true)
	}
	fill(Zones[Black], true)
	fill(Bar, true)
	return ink
}()

func cardInk(x, y float64) (ink, on bool) {
	w, h := int(CardWidthMM/printStep), int(CardHeightMM/printStep)
	i, j := int((x+CardWidthMM/2)/printStep), int((y+CardHeightMM/2)/printStep)
	if x < -CardWidthMM/2 || y < -CardHeightMM/2 || i >= w || j >= h {
		return false, false
	}
	return printed[j*w+i], true
}

// axes are the camera's place and axes on the card, z up.
func (s *scene) axes() (eye, right, down, ahead [3]float64) {
	st, ct := math.Sincos(s.tilt)
	sd, cd := math.Sincos(s.tiltTo)
	out := [3]float64{st * cd, st * sd, ct} // towards the camera
	eye = [3]float64{s.aim.X + s.eyeMM*out[0], s.aim.Y + s.eyeMM*out[1], s.eyeMM * out[2]}
	ahead = [3]float64{-out[0], -out[1], -out[2]}
	sp, cp := math.Sincos(s.spin)
	up := [3]float64{cp, sp, 0}
	dot := up[0]*ahead[0] + up[1]*ahead[1]
	for k := range right {
		right[k] = up[k] - dot*ahead[k]
	}
	n := math.Sqrt(right[0]*right[0] + right[1]*right[1] + right[2]*right[2])
	for k := range right {
		right[k] /= n
	}
	// The card's y runs down, so the axes are left-handed.
	down = [3]float64{
		-(ahead[1]*right[2] - ahead[2]*right[1]),
		-(ahead[2]*right[0] - ahead[0]*right[2]),
		-(ahead[0]*right[1] - ahead[1]*right[0]),
	}
	return eye, right, down, ahead
}

// picture draws the scene in linear light, then as a phone would save it. Beyond
// the card's surroundings it is plain table: that is quick, and the tracer has
// nothing to find there.
func (s *scene) picture() *image.RGBA {
	out := image.NewRGBA(image.Rect(0, 0, s.width, s.height))
	for i := 0; i < len(out.Pix); i += 4 {
		out.Pix[i], out.Pix[i+1], out.Pix[i+2], out.Pix[i+3] = 120, 100, 85, 255
	}
	c := s.lens()
	box := c.cardBox()
	w, h := box.Dx(), box.Dy()
	buf := make([]float32, 3*w*h)
	for y := range h {
		for x := range w {
			v := s.pixel(c, x+box.Min.X, y+box.Min.Y)
			copy(buf[3*(y*w+x):], v[:])
		}
	}
	blurred(buf, w, h, s.blurPx, s.motion)
	sharpened(buf, w, h, s.sharpen)
	for y := range h {
		for x := range w {
			at := out.PixOffset(x+box.Min.X, y+box.Min.Y)
			for k := range 3 {
				v := float64(buf[3*(y*w+x)+k])
				v += s.rng.NormFloat64() * s.noise * math.Sqrt(math.Max(v, 0)+0.004)
				out.Pix[at+k] = coded(toned(v*s.corner(x+box.Min.X, y+box.Min.Y), s.curve))
			}
		}
	}
	return out
}

// corner is the share of light that reaches a pixel.
func (s *scene) corner(x, y int) float64 {
	dx, dy := float64(2*x)/float64(s.width)-1, float64(2*y)/float64(s.height)-1
	return 1 - s.vignette*(dx*dx+dy*dy)/2
}

// toned bends light as phones do for looks: darks darker, lights lighter.
func toned(v, strength float64) float64 {
	v = math.Max(0, math.Min(v, 1))
	return v + strength*(v*v*(3-2*v)-v)*(1-0.5*v)
}

// sharpened adds what a picture differs from a softer one.
func sharpened(buf []float32, w, h int, amount float64) {
	if amount == 0 {
		return
	}
	soft := append([]float32(nil), buf...)
	blurred(soft, w, h, 1.2, 0)
	for i, v := range buf {
		buf[i] = max(0, v+float32(amount)*(v-soft[i]))
	}
}

// lens gives the ray of a pixel.
type lens struct {
	eye, right, down, ahead [3]float64
	focal, halfDiagonal     float64
	bend                    float64
	w, h                    int
}

func (s *scene) lens() lens {
	var c lens
	c.eye, c.right, c.down, c.ahead = s.axes()
	diagonal := math.Hypot(float64(s.width), float64(s.height))
	c.focal, c.halfDiagonal, c.bend, c.w, c.h = s.film/43.2666*diagonal, diagonal/2, s.bend, s.width, s.height
	return c
}

func (c lens) ray(px, py float64) (ray [3]float64) {
	dx, dy := px-float64(c.w-1)/2, py-float64(c.h-1)/2
	u, v := dx, dy
	for range 3 {
		k := 1 + c.bend*(u*u+v*v)/(c.halfDiagonal*c.halfDiagonal)
		u, v = dx/k, dy/k
	}
	for k := range ray {
		ray[k] = c.ahead[k] + u/c.focal*c.right[k] + v/c.focal*c.down[k]
	}
	return ray
}

// onCard is where a ray meets the card's plane.
func (c lens) onCard(ray [3]float64) (x, y float64) {
	k := -c.eye[2] / ray[2]
	return c.eye[0] + k*ray[0], c.eye[1] + k*ray[1]
}

// cardBox is the part of the picture with the card and a little round it.
func (c lens) cardBox() image.Rectangle {
	const step = 8
	var box image.Rectangle
	for py := 0; py < c.h; py += step {
		for px := 0; px < c.w; px += step {
			x, y := c.onCard(c.ray(float64(px), float64(py)))
			if math.Abs(x) < CardWidthMM/2+4 && math.Abs(y) < CardHeightMM/2+4 {
				box = box.Union(image.Rect(px-step, py-step, px+step, py+step))
			}
		}
	}
	return box.Intersect(image.Rect(0, 0, c.w, c.h))
}

func (s *scene) pixel(c lens, px, py int) (out [3]float32) {
	var sum [3]float64
	n := 0.0
	for sub := range 4 {
		ray := c.ray(float64(px)-0.25+0.5*float64(sub&1), float64(py)-0.25+0.5*float64(sub>>1))
		v := s.shade(c.eye, ray)
		for k := range sum {
			sum[k] += v[k]
		}
		n++
		// The table has no edges that want more than one ray.
		if x, y := c.onCard(ray); math.Abs(x) > CardWidthMM/2+1 || math.Abs(y) > CardHeightMM/2+1 {
			break
		}
	}
	for k := range out {
		out[k] = float32(sum[k] / n)
	}
	return out
}

func coded(v float64) uint8 {
	return codes[int(math.Max(0, math.Min(v, 1))*(1<<15))]
}

var codes = func() (t [1<<15 + 1]uint8) {
	for i := range t {
		v := float64(i) / (1 << 15)
		if v <= 0.0031308 {
			v *= 12.92
		} else {
			v = 1.055*math.Pow(v, 1/2.4) - 0.055
		}
		t[i] = uint8(v*255 + 0.5)
	}
	return t
}()

// jpeg is the picture after a phone's compression.
func (s *scene) jpeg() []byte {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, s.picture(), &jpeg.Options{Quality: s.quality}); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// photo is the picture as it is opened again. Scenes with a seed are kept in the
// folder GUILDHAND_PHOTOS, since drawing one takes longer than tracing it.
func (s *scene) photo() Photo {
	name := ""
	if dir := os.Getenv("GUILDHAND_PHOTOS"); dir != "" && s.seed != "" {
		name = filepath.Join(dir, s.seed+".jpg")
	}
	data, err := os.ReadFile(name)
	if err != nil {
		data = s.jpeg()
		if name != "" {
			if err := os.WriteFile(name, data, 0o600); err != nil {
				panic(err)
			}
		}
	}
	img, err := jpeg.Decode(bytes.NewReader(data))
	if err != nil {
		panic(err)
	}
	return NewPhoto(img, 1)
}

func (s *scene) lightAt(x, y float64) [3]float64 {
	k := 1 - s.falloff*(0.5+(x*math.Cos(s.falloffTo)+y*math.Sin(s.falloffTo))/90)
	return [3]float64{s.light[0] * k, s.light[1] * k, s.light[2] * k}
}

func (s *scene) shade(eye, ray [3]float64) [3]float64 {
	k := -eye[2] / ray[2]
	x, y := eye[0]+k*ray[0], eye[1]+k*ray[1]
	light := s.lightAt(x, y)
	for _, f := range s.fingers {
		if math.Hypot(x-f.X, y-f.Y) < 8 {
			return [3]float64{light[0] * 0.5, light[1] * 0.32, light[2] * 0.24}
		}
	}
	sx, sy := x-s.at.X, y-s.at.Y
	reach := s.stone.mostRadius + 0.5*s.stone.topMM + 0.5
	if s.stone.radius != nil && sx*sx+sy*sy < reach*reach {
		if z, ok := s.hit(eye, ray); ok {
			k := (z - eye[2]) / ray[2]
			hx, hy := eye[0]+k*ray[0]-s.at.X, eye[1]+k*ray[1]-s.at.Y
			return s.stoneLight(hx, hy, z, ray, light)
		}
	}
	c := s.base(x, y)
	shadow := 1.0
	far := reach + 3*s.stone.topMM
	if s.stone.radius != nil && sx*sx+sy*sy < far*far {
		shadow = s.shadow(sx, sy)
	}
	if g := &s.stone; g.glow > 0 && sx*sx+sy*sy < far*far {
		away := math.Max(0, math.Hypot(sx, sy)-g.radius(math.Atan2(sy, sx)))
		toward := 0.5 - 0.5*(sx*s.sun[0]+sy*s.sun[1])/math.Max(math.Hypot(sx, sy)*math.Hypot(s.sun[0], s.sun[1]), 1e-6)
		for k := range c {
			c[k] *= 1 + g.glow*toward*g.colour[k]*math.Exp(-away/1.5)
		}
	}
	for k := range c {
		c[k] *= light[k] * (shadow + (1-shadow)*s.shadowTint[k])
	}
	return c
}

// base is the card or the table.
func (s *scene) base(x, y float64) [3]float64 {
	ink, on := cardInk(x, y)
	switch {
	case ink:
		return [3]float64{inkLight, inkLight, inkLight * 1.05}
	case on:
		return [3]float64{paperLight, paperLight, paperLight * 0.98}
	}
	g := 0.05 * math.Sin(x/3+2*math.Sin(y/17))
	return [3]float64{0.35 + g, 0.25 + g, 0.17 + g}
}

func (s *scene) hit(eye, ray [3]float64) (float64, bool) {
	g := &s.stone
	at := func(z float64) bool {
		k := (z - eye[2]) / ray[2]
		return g.inside(eye[0]+k*ray[0]-s.at.X, eye[1]+k*ray[1]-s.at.Y, z)
	}
	const steps = 28
	above := g.topMM
	for i := 1; i <= steps; i++ {
		z := g.topMM * (1 - float64(i)/steps)
		if i == steps {
			z = 0.001
		}
		if z < g.edgeMM && above > g.edgeMM {
			if at(g.edgeMM) {
				z = g.edgeMM
			}
		}
		if at(z) {
			low := z
			for range 12 {
				mid := (low + above) / 2
				if at(mid) {
					low = mid
				} else {
					above = mid
				}
			}
			return low, true
		}
		above = z
	}
	return 0, false
}

func (s *scene) shadow(x, y float64) float64 {
	lit := 0
	for i := range 5 {
		sx := s.sun[0] + 0.12*float64(i-2)
		sy := s.sun[1] + 0.08*float64((i*2)%5-2)
		free := true
		for k := range 8 {
			z := s.stone.topMM * (float64(k) + 0.5) / 8
			if s.stone.inside(x+sx/s.sun[2]*z, y+sy/s.sun[2]*z, z) {
				free = false
				break
			}
		}
		if free {
			lit++
		}
	}
	return s.ambient + (1-s.ambient)*float64(lit)/5
}

func (s *scene) stoneLight(x, y, z float64, ray, light [3]float64) [3]float64 {
	g := &s.stone
	d := math.Max(math.Hypot(x, y), 1e-6)
	e := 0.01
	slope := -(g.share(z+e) - g.share(z-e)) / (2 * e) * g.radius(math.Atan2(y, x))
	n := [3]float64{x / d, y / d, slope}
	if slope > 40 || math.IsNaN(slope) {
		n = [3]float64{0, 0, 1}
	}
	norm := math.Sqrt(n[0]*n[0] + n[1]*n[1] + n[2]*n[2])
	dot, mirror := 0.0, 0.0
	rl := math.Sqrt(ray[0]*ray[0] + ray[1]*ray[1] + ray[2]*ray[2])
	var half [3]float64
	for k := range n {
		n[k] /= norm
		dot += n[k] * s.sun[k]
		half[k] = s.sun[k] - ray[k]/rl
	}
	hl := math.Sqrt(half[0]*half[0] + half[1]*half[1] + half[2]*half[2])
	for k := range n {
		mirror += n[k] * half[k] / hl
	}
	sky := 0.5 + 0.5*n[2]
	v := s.ambient*(0.4+0.6*sky) + (1-s.ambient)*math.Max(0, dot)
	glint := g.shine * math.Pow(math.Max(0, mirror), 150)
	if g.window {
		// A window some 25 degrees wide at the sun's side.
		up := math.Abs(half[0]/hl-n[0]) + math.Abs(half[1]/hl-n[1])
		glint = math.Max(glint, 0.7*g.shine/(1+math.Exp((up-0.2)/0.02)))
	}
	c := g.colour
	if g.clear {
		b := s.base(s.at.X+0.8*x, s.at.Y+0.8*y)
		for k := range c {
			c[k] = b[k]*0.9 + 0.03*(1-n[2])
		}
		v = 1
	}
	m := 1.0
	if g.veins > 0 && math.Abs(math.Sin(x*1.1+1.7*math.Sin(y*0.9)+0.6*math.Sin(x*2.3))) < 0.12 {
		m -= g.veins
	}
	if g.bands > 0 {
		m += g.bands * math.Sin(2.2*x+1.3*y+math.Sin(y))
	}
	if g.rim > 0 {
		m -= g.rim * math.Exp(-(g.radius(math.Atan2(y, x))-d)/(0.12*g.meanRadius))
	}
	if g.spots > 0 {
		m += g.spots * (patchy(x/1.7, y/1.7, g.seed) - 0.5)
	}
	if g.web > 0 {
		// Matrix: nearly the same distance from two of the patches' middles.
		if w := math.Min(1, web(x/3, y/3, g.seed)/0.14); w < 1 {
			for k, brown := range [3]float64{0.10, 0.065, 0.04} {
				c[k] += (brown - c[k]) * g.web * (1 - w*w)
			}
		}
	}
	for k := range c {
		c[k] = (c[k]*m*v + glint) * light[k]
	}
	return c
}

func scattered(i, j int, seed uint64) uint64 {
	v := uint64(i+1000)*0x9E3779B97F4A7C15 ^ uint64(j+1000)*0xC2B2AE3D27D4EB4F ^ seed*0x165667B19E3779F9
	v ^= v >> 29
	v *= 0xBF58476D1CE4E5B9
	return v ^ v>>32
}

// patchy is smooth noise from 0 to 1.
func patchy(x, y float64, seed uint64) float64 {
	i, j := int(math.Floor(x)), int(math.Floor(y))
	fx, fy := x-float64(i), y-float64(j)
	fx, fy = fx*fx*(3-2*fx), fy*fy*(3-2*fy)
	at := func(i, j int) float64 { return float64(scattered(i, j, seed)&0xffff) / 0xffff }
	return (at(i, j)*(1-fx)+at(i+1, j)*fx)*(1-fy) + (at(i, j+1)*(1-fx)+at(i+1, j+1)*fx)*fy
}

// web is how much farther the second-nearest of scattered middles is than the
// nearest.
func web(x, y float64, seed uint64) float64 {
	i, j := int(math.Floor(x)), int(math.Floor(y))
	first, second := math.Inf(1), math.Inf(1)
	for dj := -1; dj <= 1; dj++ {
		for di := -1; di <= 1; di++ {
			v := scattered(i+di, j+dj, seed)
			px, py := float64(i+di)+float64(v&0xff)/255, float64(j+dj)+float64(v>>8&0xff)/255
			d := math.Hypot(px-x, py-y)
			if d < first {
				first, second = d, first
			} else if d < second {
				second = d
			}
		}
	}
	return second - first
}

// blurred spreads the light by the lens and along x by a moving hand.
func blurred(buf []float32, w, h int, sigma, motion float64) {
	kernel := func(s float64) []float32 {
		r := max(1, int(3*s+0.5))
		k := make([]float32, 2*r+1)
		sum := float32(0)
		for i := range k {
			d := float64(i - r)
			k[i] = float32(math.Exp(-d * d / (2 * s * s)))
			sum += k[i]
		}
		for i := range k {
			k[i] /= sum
		}
		return k
	}
	pass := func(k []float32, n, lines, step, lineStep int) {
		r := len(k) / 2
		row := make([]float32, 3*n)
		for l := range lines {
			base := l * lineStep
			for i := range n {
				copy(row[3*i:3*i+3], buf[base+i*step:base+i*step+3])
			}
			for i := range n {
				var a, b, c float32
				for j, kv := range k {
					q := 3 * min(max(i+j-r, 0), n-1)
					a += kv * row[q]
					b += kv * row[q+1]
					c += kv * row[q+2]
				}
				o := base + i*step
				buf[o], buf[o+1], buf[o+2] = a, b, c
			}
		}
	}
	pass(kernel(math.Hypot(sigma, motion)), w, h, 3, 3*w)
	pass(kernel(sigma), h, w, 3*w, 3)
}

// outlines of stones by their radius, mm.
func freeform(rng *rand.Rand, size float64) func(float64) float64 {
	var a, p [6]float64
	for k := 2; k < 6; k++ {
		a[k] = 0.13 * rng.NormFloat64() / float64(k*k) * 2
		p[k] = rng.Float64() * 2 * math.Pi
	}
	return func(t float64) float64 {
		r := 1.0
		for k := 2; k < 6; k++ {
			r += a[k] * math.Cos(float64(k)*t+p[k])
		}
		return size * math.Max(r, 0.4)
	}
}

func superellipse(a, b, n, turn float64) func(float64) float64 {
	return func(t float64) float64 {
		s, c := math.Sincos(t - turn)
		return math.Pow(math.Pow(math.Abs(c)/a, n)+math.Pow(math.Abs(s)/b, n), -1/n)
	}
}

type material struct {
	name         string
	colour       [3]float64
	veins, bands float64
	zone         []Zone
	clear        bool
}

var materials = []material{
	{"turquoise", [3]float64{0.12, 0.50, 0.52}, 0.6, 0, []Zone{Black, White}, false},
	{"carnelian", [3]float64{0.50, 0.07, 0.03}, 0, 0.1, []Zone{Black, White}, false},
	{"lapis", [3]float64{0.06, 0.09, 0.36}, 0, 0.2, []Zone{Black, White}, false},
	{"jade", [3]float64{0.18, 0.42, 0.20}, 0, 0.1, []Zone{Black}, false},
	{"moonstone", [3]float64{0.66, 0.70, 0.78}, 0, 0, []Zone{Black}, false},
	{"agate", [3]float64{0.50, 0.40, 0.34}, 0, 0.25, []Zone{Black}, false},
	{"onyx", [3]float64{0.02, 0.02, 0.022}, 0, 0, []Zone{White}, false},
}

func between(rng *rand.Rand, a, b float64) float64 { return a + (b-a)*rng.Float64() }

// goodScene is a photograph as a careful maker takes it.
func goodScene(seed uint64) (*scene, material, Zone) {
	rng := rand.New(rand.NewPCG(seed, 7))
	m := materials[rng.IntN(len(materials))]
	zone := m.zone[rng.IntN(len(m.zone))]
	size := between(rng, 5, 12)
	g := gem{
		name: m.name, colour: m.colour, veins: m.veins, bands: m.bands, clear: m.clear,
		edgeMM: between(rng, 0.3, 1), sideMM: between(rng, 0.2, 1), lean: between(rng, 5, 20) * math.Pi / 180,
		bevelMM: between(rng, 0.1, 0.4), shine: between(rng, 0, 0.8),
	}
	switch rng.IntN(3) {
	case 0:
		g.radius = freeform(rng, size)
	case 1:
		g.radius = superellipse(size, size*between(rng, 0.55, 1), 2, rng.Float64()*3)
	default:
		g.radius = superellipse(size, size*between(rng, 0.6, 0.9), between(rng, 2.2, 3.2), rng.Float64()*3)
	}
	g.topMM = g.edgeMM + g.sideMM + size*between(rng, 0.3, 0.7)
	g.settle()
	r := Zones[zone]
	at := Place{(r.Left+r.Right)/2 + between(rng, -2, 2), (r.Top+r.Bottom)/2 + between(rng, -2, 2)}
	width := 3000 + 8*rng.IntN(120)
	warm := between(rng, 0.85, 1.1)
	bright := between(rng, 0.45, 0.95)
	sun := [3]float64{between(rng, -0.7, 0.7), between(rng, -0.7, 0.7), 1}
	n := math.Sqrt(sun[0]*sun[0] + sun[1]*sun[1] + 1)
	for k := range sun {
		sun[k] /= n
	}
	s := &scene{
		width: width, height: width * 3 / 4, eyeMM: between(rng, 200, 280),
		tilt: between(rng, 0, 9) * math.Pi / 180, tiltTo: rng.Float64() * 2 * math.Pi,
		spin: between(rng, -0.3, 0.3) + math.Pi*float64(rng.IntN(2)), film: between(rng, 24, 29), bend: between(rng, -0.04, 0.03),
		aim: Place{between(rng, -12, 12), between(rng, -9, 9)}, stone: g, at: at, sun: sun,
		ambient: between(rng, 0.35, 0.8), light: [3]float64{bright, bright, bright / warm},
		falloff: between(rng, 0, 0.4), falloffTo: rng.Float64() * 6.3,
		blurPx: between(rng, 0.7, 1.5), noise: between(rng, 0.004, 0.02), quality: 82 + rng.IntN(14), rng: rng,
	}
	return s, m, zone
}

// looks are what the stones of plainer photographs don't have.
var looks = []struct {
	name       string
	colour     [3]float64
	web, spots float64
	zone       []Zone
}{
	{"spiderweb turquoise", [3]float64{0.14, 0.45, 0.44}, 1, 0.2, []Zone{Black, White}},
	{"jasper", [3]float64{0.42, 0.20, 0.09}, 0.5, 0.9, []Zone{Black, White}},
	{"variscite", [3]float64{0.30, 0.48, 0.24}, 0.8, 0.4, []Zone{Black}},
	{"larimar", [3]float64{0.42, 0.58, 0.66}, 0, 0.7, []Zone{Black}},
	{"malachite", [3]float64{0.03, 0.20, 0.09}, 0, 0.8, []Zone{White}},
	{"sodalite", [3]float64{0.08, 0.11, 0.30}, 0, 1.0, []Zone{White}},
}

// phoneScene is a careful photograph of another kind: patterned, glossy stones,
// tinted shadows from larger lights, and a phone that bends tones and sharpens.
func phoneScene(seed uint64) (*scene, material, Zone) {
	s, m, zone := goodScene(seed)
	rng := rand.New(rand.NewPCG(seed, 11))
	if rng.IntN(3) > 0 {
		l := looks[rng.IntN(len(looks))]
		zone = l.zone[rng.IntN(len(l.zone))]
		r := Zones[zone]
		s.at = Place{(r.Left+r.Right)/2 + between(rng, -2, 2), (r.Top+r.Bottom)/2 + between(rng, -2, 2)}
		m = material{l.name, l.colour, 0, 0, l.zone, false}
		s.stone.colour, s.stone.veins, s.stone.bands = l.colour, 0, 0
		s.stone.web, s.stone.spots, s.stone.seed = l.web*between(rng, 0.5, 1), l.spots, seed
	}
	s.stone.window, s.stone.shine = rng.IntN(2) > 0, between(rng, 0, 1)
	s.curve, s.sharpen, s.vignette = between(rng, 0, 0.5), between(rng, 0, 0.8), between(rng, 0, 0.3)
	s.shadowTint = [3]float64{0, between(rng, 0, 0.02), between(rng, 0, 0.06)}
	return s, m, zone
}

// hardScene is a photograph at the edge of what can be traced: translucent rims,
// coloured light beside the stone, a low sun, too much light, shine on the ink.
func hardScene(seed uint64) (*scene, material, Zone) {
	s, m, zone := phoneScene(seed)
	rng := rand.New(rand.NewPCG(seed, 13))
	if rng.IntN(2) > 0 {
		s.stone.rim = between(rng, 0.2, 0.8)
	}
	if rng.IntN(2) > 0 {
		s.stone.glow = between(rng, 0.2, 0.8)
	}
	if rng.IntN(3) == 0 {
		k := between(rng, 0.1, 0.6)
		for i := range s.stone.colour {
			s.stone.colour[i] *= k
		}
	}
	if rng.IntN(3) == 0 {
		k := between(rng, 1, 1.6)
		for i := range s.light {
			s.light[i] *= k
		}
	}
	if rng.IntN(2) > 0 {
		s.sun = [3]float64{between(rng, -0.8, 0.8), between(rng, -0.8, 0.8), between(rng, 0.4, 0.8)}
		n := math.Sqrt(s.sun[0]*s.sun[0] + s.sun[1]*s.sun[1] + s.sun[2]*s.sun[2])
		for k := range s.sun {
			s.sun[k] /= n
		}
	}
	if zone == Black && rng.IntN(2) > 0 {
		zone = White
		s.at.X += (Zones[White].Left + Zones[White].Right - Zones[Black].Left - Zones[Black].Right) / 2
	}
	s.seed = "hard" + strconv.FormatUint(seed, 10)
	return s, m, zone
}

// blindScene takes the two kinds of photograph in turn.
func blindScene(seed uint64) (*scene, material, Zone) {
	draw := goodScene
	if seed%2 > 0 {
		draw = phoneScene
	}
	s, m, zone := draw(seed)
	s.seed = strconv.FormatUint(seed, 10)
	return s, m, zone
}
