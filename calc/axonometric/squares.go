package axonometric

import "math"

// squares divide the paper into a grid that tells which faces are near a line.
type squares struct {
	low Point
	// sizeX and sizeY are a square's, mm; count is how many lie in a row.
	sizeX, sizeY float64
	count        int
	// faces has the numbers of the faces that reach into each square, row by row.
	faces [][]int32
	// met tells in which search each face was met last, so that it is given once.
	met    []int
	search int
}

// squaresOf has about as many squares as faces between low and high on paper.
func squaresOf(faces []face, low, high Point) squares {
	count := max(1, int(math.Sqrt(float64(len(faces)))))
	s := squares{low: low, count: count, sizeX: (high.X - low.X) / float64(count), sizeY: (high.Y - low.Y) / float64(count)}
	s.faces, s.met = make([][]int32, count*count), make([]int, len(faces))
	for i := range faces {
		x0, x1, y0, y1 := s.reach(faces[i].low, faces[i].high)
		for y := y0; y <= y1; y++ {
			for x := x0; x <= x1; x++ {
				s.faces[y*count+x] = append(s.faces[y*count+x], int32(i))
			}
		}
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

// each gives every face in the squares between low and high once.
func (s *squares) each(low, high Point, give func(face int)) {
	s.search++
	x0, x1, y0, y1 := s.reach(low, high)
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			for _, i := range s.faces[y*s.count+x] {
				if s.met[i] != s.search {
					s.met[i] = s.search
					give(int(i))
				}
			}
		}
	}
}
