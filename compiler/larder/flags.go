package larder

// Flag says what kind of food an ingredient is (for diets) or what to mind
// about it when it is raw (for cautions). The closed list, with meanings and
// what each implies, is data/flags.csv.
type Flag string

// What a diet may ask about.
const (
	Meat       Flag = "meat" // flesh, fat and stock of land animals, birds too
	Beef       Flag = "beef"
	Lamb       Flag = "lamb"
	Pork       Flag = "pork"
	Poultry    Flag = "poultry"
	Game       Flag = "game"
	Fish       Flag = "fish"
	Shellfish  Flag = "shellfish" // crustaceans and molluscs
	Dairy      Flag = "dairy"
	Egg        Flag = "egg"
	Honey      Flag = "honey"
	Gelatine   Flag = "gelatine"
	Rennet     Flag = "animal rennet"
	Alcohol    Flag = "alcohol"
	ReadLabel  Flag = "read the label" // made up by its maker: kind and allergens vary
	Generic    Flag = "generic"        // the name fits several things
	RawMeat    Flag = "raw meat"
	RawPoultry Flag = "raw poultry"
	RawPork    Flag = "raw pork"
	RawMince   Flag = "raw mince"
	RawFish    Flag = "raw fish"
	RawShell   Flag = "raw shellfish"
	RawEgg     Flag = "raw egg"
	RawFlour   Flag = "raw flour"
	Rice       Flag = "rice"
	KidneyBean Flag = "dried kidney beans"
	Sprouts    Flag = "sprouts"
	SoftCheese Flag = "soft cheese"
	Liver      Flag = "liver"
	Nut        Flag = "nut" // whole nuts: choking of small children
)

// FlagInfo is one row of the closed list.
type FlagInfo struct {
	Flag    Flag
	Group   string // diet, name or risk
	Meaning string
	Implies []Flag
	Source  *Source
}
