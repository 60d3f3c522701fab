package ast

// Which statements may stand where.

func (*Menu) block()    {}
func (*Recipe) block()  {}
func (*Kitchen) block() {}
func (*Larder) block()  {}
func (*Series) block()  {}
func (*Book) block()    {}
func (*Bad) block()     {}

func (*Covers) menuItem()  {}
func (*ServeAt) menuItem() {}
func (*At) menuItem()      {}
func (*Hours) menuItem()   {}
func (*Course) menuItem()  {}
func (*Task) menuItem()    {}
func (*Shop) menuItem()    {}
func (*Service) menuItem() {}
func (*Common) menuItem()  {}
func (*Bad) menuItem()     {}

func (*Oven) kitchenItem()    {}
func (*Rings) kitchenItem()   {}
func (*Names) kitchenItem()   {}
func (*Vessel) kitchenItem()  {}
func (*WashUp) kitchenItem()  {}
func (*Waits) kitchenItem()   {}
func (*Service) kitchenItem() {}
func (*Zone) kitchenItem()    {}
func (*Common) kitchenItem()  {}
func (*Bad) kitchenItem()     {}

func (*Setting) larderItem() {}
func (*Entry) larderItem()   {}
func (*Bad) larderItem()     {}

func (*Part) seriesItem()   {}
func (*About) seriesItem()  {}
func (*Noted) seriesItem()  {}
func (*Common) seriesItem() {}
func (*Bad) seriesItem()    {}

func (*Shows) partItem()    {}
func (*PartDate) partItem() {}
func (*Copies) partItem()   {}
func (*About) partItem()    {}
func (*Noted) partItem()    {}
func (*Common) partItem()   {}
func (*Bad) partItem()      {}

func (*Style) bookItem()   {}
func (*Chapter) bookItem() {}
func (*For) bookItem()     {}
func (*About) bookItem()   {}
func (*Common) bookItem()  {}
func (*Bad) bookItem()     {}

func (*Serves) recipeItem()       {}
func (*Makes) recipeItem()        {}
func (*Keeps) recipeItem()        {}
func (*Tested) recipeItem()       {}
func (*Units) recipeItem()        {}
func (*WholeBatches) recipeItem() {}
func (*ServeHow) recipeItem()     {}
func (*Takes) recipeItem()        {}
func (*As) recipeItem()           {}
func (*Without) recipeItem()      {}
func (*Replace) recipeItem()      {}
func (*Change) recipeItem()       {}
func (*Noted) recipeItem()        {}
func (*Common) recipeItem()       {}
func (*About) recipeItem()        {}
func (*Gather) recipeItem()       {}
func (*Method) recipeItem()       {}
func (*Bad) recipeItem()          {}

func (*Line) gatherItem()    {}
func (*SubList) gatherItem() {}
func (*Choice) gatherItem()  {}
func (*Bad) gatherItem()     {}

func (*Step) methodItem()  {}
func (*Pause) methodItem() {}
func (*Bad) methodItem()   {}

func (*Timed) clause()    {}
func (*Stay) clause()     {}
func (*Heat) clause()     {}
func (*Ring) clause()     {}
func (*InPlace) clause()  {}
func (*Named) clause()    {}
func (*InVessel) clause() {}
func (*Degrees) clause()  {}
func (*Taking) clause()   {}
func (*Hold) clause()     {}
func (*Timing) clause()   {}
func (*Hands) clause()    {}
func (*Note) clause()     {}
func (*Weighed) clause()  {}
func (*Buy) clause()      {}
func (*From) clause()     {}
func (*InPart) clause()   {}
func (*Mark) clause()     {}
func (*Unread) clause()   {}

func (*Piece) fact()     {}
func (*Yield) fact()     {}
func (*From) fact()      {}
func (*Price) fact()     {}
func (*Density) fact()   {}
func (*Packs) fact()     {}
func (*Contains) fact()  {}
func (*Also) fact()      {}
func (*ShelfLife) fact() {}
func (*Gives) fact()     {}
func (*Countable) fact() {}
func (*Unread) fact()    {}
