package axonometric

import (
	"math"
	"slices"
)

// squares divide the paper into a grid that tells which faces are near a line.
type squares struct {
	low Point
	// sizeX and sizeY are a square's, mm; count is how many lie in a row.
	sizeX, sizeY float64
	count        int
	// faces has the numbers of the faces that reach into the squares, row by row;
	// those of square i are from first[i] to first[i+1].
	faces, first []int32
	boxes        []box
	// met tells in which search each face was met last, so that it is given once.
	met    []int
	search int
}

// box is what a face takes up on paper, and its greatest height.
type box struct{ lowX, lowY, highX, highY, highZ float64 }

// squaresOf has about as many squares as faces between low and high on paper.
func squaresOf(faces []face, low, high Point) squares {
	count := max(1, int(math.Sqrt(float64(len(faces)))))
	s := squares{low: low, count: count, sizeX: (high.X - low.X) / float64(count), sizeY: (high.Y - low.Y) / float64(count)}
	s.met, s.boxes = make([]int, len(faces)), make([]box, len(faces))
	s.first = make([]int32, count*count+1)
	squares := func(i int, visit func(square int)) {
		x0, x1, y0, y1 := s.reach(faces[i].low, faces[i].high)
		for y := y0; y <= y1; y++ {
			for x := x0; x <= x1; x++ {
				visit(y*count + x)
			}
		}
	}
	for i := range faces {
		squares(i, func(square int) { s.first[square+1]++ })
	}
	for i := range count * count {
		s.first[i+1] += s.first[i]
	}
	s.faces = make([]int32, s.first[count*count])
	next := slices.Clone(s.first)
	for i, f := range faces {
		s.boxes[i] = box{f.low.X, f.low.Y, f.high.X, f.high.Y, f.high.Z}
		squares(i, func(square int) {
			s.faces[next[square]] = int32(i)
			next[square]++
		})
	}
	return s
}

// reach are the first and last column and row of the squares between low and
// high; what lies off the grid counts as its edge.
func (s *squares) reach(low, high Point) (x0, x1, y0, y1 int) {
	at := func(mm, size float64) int {
		if size <= 0 {
			return 0
		}
		return int(min(max(mm/size, 0), float64(s.count-1)))
	}
	return at(low.X-s.low.X, s.sizeX), at(high.X-s.low.X, s.sizeX), at(low.Y-s.low.Y, s.sizeY), at(high.Y-s.low.Y, s.sizeY)
}

// each gives every face once that meets the rectangle between low and high, and
// reaches as high as low.
func (s *squares) each(low, high Point, give func(face int)) {
	s.search++
	x0, x1, y0, y1 := s.reach(low, high)
	for y := y0; y <= y1; y++ {
		// the squares of a row lie one after the other
		for _, i := range s.faces[s.first[y*s.count+x0]:s.first[y*s.count+x1+1]] {
			b := &s.boxes[i]
			if b.highZ < low.Z || b.highX < low.X || b.lowX > high.X || b.highY < low.Y || b.lowY > high.Y || s.met[i] == s.search {
				continue
			}
			s.met[i] = s.search
			give(int(i))
		}
	}
}
