package plan

// order keeps the variables by how much they took part in recent conflicts (VSIDS:
// Moskewicz et al. 2001): a heap, largest activity on top.
type order struct {
	activity []float64
	heap     []variable
	place    []int32 // per variable: index in the heap, -1 if absent
	mute     []bool  // per variable: never to be chosen
	inc      float64
}

func (o *order) grow() {
	if o.inc == 0 {
		o.inc = 1
	}
	o.activity = append(o.activity, 0)
	o.place = append(o.place, -1)
	o.mute = append(o.mute, false)
}

// enter makes x one of the variables pop may return.
func (o *order) enter(x variable) {
	if o.place[x] < 0 {
		o.place[x] = int32(len(o.heap))
		o.heap = append(o.heap, x)
		o.up(len(o.heap) - 1)
	}
}

// back re-enters a variable whose bound was undone. The constant never enters.
func (o *order) back(x variable) {
	if x != 0 && !o.mute[x] {
		o.enter(x)
	}
}

func (o *order) bump(x variable) {
	o.activity[x] += o.inc
	if o.activity[x] > 1e100 {
		for i := range o.activity {
			o.activity[i] *= 1e-100
		}
		o.inc *= 1e-100
	}
	if i := o.place[x]; i >= 0 {
		o.up(int(i))
	}
}

func (o *order) decay() { o.inc /= 0.95 }

// pop takes the most active variable, or says that there is none.
func (o *order) pop() (variable, bool) {
	if len(o.heap) == 0 {
		return 0, false
	}
	x := o.heap[0]
	last := len(o.heap) - 1
	o.heap[0] = o.heap[last]
	o.place[o.heap[0]] = 0
	o.heap = o.heap[:last]
	o.place[x] = -1
	if last > 0 {
		o.down(0)
	}
	return x, true
}

func (o *order) before(i, j int) bool {
	a, b := o.heap[i], o.heap[j]
	if o.activity[a] != o.activity[b] {
		return o.activity[a] > o.activity[b]
	}
	return a < b
}

func (o *order) swap(i, j int) {
	o.heap[i], o.heap[j] = o.heap[j], o.heap[i]
	o.place[o.heap[i]], o.place[o.heap[j]] = int32(i), int32(j)
}

func (o *order) up(i int) {
	for i > 0 && o.before(i, (i-1)/2) {
		o.swap(i, (i-1)/2)
		i = (i - 1) / 2
	}
}

func (o *order) down(i int) {
	for {
		c := 2*i + 1
		if c >= len(o.heap) {
			return
		}
		if c+1 < len(o.heap) && o.before(c+1, c) {
			c++
		}
		if !o.before(c, i) {
			return
		}
		o.swap(i, c)
		i = c
	}
}
