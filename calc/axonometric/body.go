package axonometric

// Mark is a line on a body's surface, such as a seam or a facet's edge.
type Mark struct {
	Name   string
	Points []Point
}

// Body is a closed surface. All faces run round the same way, seen from outside;
// points that lie on each other count as one.
type Body struct {
	// Name is given to the lines of its edges.
	Name   string
	Points []Point
	Faces  [][3]int
	Marks  []Mark
}

// Add adds a point and gives its number.
func (b *Body) Add(p Point) int {
	b.Points = append(b.Points, p)
	return len(b.Points) - 1
}

// Quad adds a face of four corners, in their order.
func (b *Body) Quad(i, j, k, l int) { b.Faces = append(b.Faces, [3]int{i, j, k}, [3]int{i, k, l}) }

// Loft is the body between sections of equally many points, each a closed line.
// Round joins the last to the first, as in a ring; otherwise both ends are
// closed, and each must be seen whole from the mean of its points.
func Loft(name string, sections [][]Point, round bool) Body {
	b := Body{Name: name}
	n, m := len(sections), len(sections[0])
	for _, s := range sections {
		b.Points = append(b.Points, s...)
	}
	for i := range n {
		if i == n-1 && !round {
			break
		}
		for j := range m {
			k, next := (j+1)%m, (i+1)%n
			b.Quad(i*m+j, i*m+k, next*m+k, next*m+j)
		}
	}
	if !round {
		first, last := b.Add(mean(sections[0])), b.Add(mean(sections[n-1]))
		for j := range m {
			k := (j + 1) % m
			b.Faces = append(b.Faces, [3]int{first, k, j}, [3]int{last, (n-1)*m + j, (n-1)*m + k})
		}
	}
	return b
}

func mean(points []Point) Point {
	var sum Point
	for _, p := range points {
		sum = Point{sum.X + p.X, sum.Y + p.Y, sum.Z + p.Z}
	}
	n := float64(len(points))
	return Point{sum.X / n, sum.Y / n, sum.Z / n}
}
