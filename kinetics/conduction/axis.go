package conduction

import "math"

// A line divides one direction into cells. size is a cell's share of the volume
// and area the area of a face, both per unit of the other direction; their
// product over both directions is in m³ and m².
type line struct {
	size []float64 // of n cells
	area []float64 // of n + 1 faces
	half []float64 // m from a cell's middle to either of its faces
}

func (l line) cells() int { return len(l.size) }

// cut gives the n + 1 faces of stretches laid one after the other from start on,
// each cut into equal cells.
func cut(start float64, lengths []float64, cells []int) []float64 {
	faces := []float64{start}
	for i, length := range lengths {
		for k := 1; k <= cells[i]; k++ {
			faces = append(faces, start+length*float64(k)/float64(cells[i]))
		}
		start += length
	}
	return faces
}

// plane is a direction at right angles to a wall or a floor.
func plane(faces []float64) line {
	n := len(faces) - 1
	l := line{size: make([]float64, n), area: make([]float64, n+1), half: make([]float64, n)}
	for i := range l.size {
		l.size[i] = faces[i+1] - faces[i]
		l.half[i] = l.size[i] / 2
	}
	for i := range l.area {
		l.area[i] = 1
	}
	return l
}

// radial is the direction away from an axis, all the way round.
func radial(faces []float64) line {
	n := len(faces) - 1
	l := line{size: make([]float64, n), area: make([]float64, n+1), half: make([]float64, n)}
	for i := range l.size {
		l.size[i] = math.Pi * (faces[i+1] - faces[i]) * (faces[i+1] + faces[i])
		l.half[i] = (faces[i+1] - faces[i]) / 2
	}
	for i := range l.area {
		l.area[i] = 2 * math.Pi * faces[i]
	}
	return l
}

// lumped is a direction within which there is one temperature: extent is the
// whole of it (m² of a floor, m of a tube) and rim what touches its outside.
func lumped(extent, rim float64) line {
	return line{size: []float64{extent}, area: []float64{0, rim}, half: []float64{0}}
}
