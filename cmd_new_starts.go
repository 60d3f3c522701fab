package main

// starts are the texts that `tamis new` writes, as templates of a start.
const starts = `{{define "soup"}}
  serves {{.For}}
{{- if .Alone}}
  # Amount, name, and behind a comma what is for the cook; behind a bar how long it takes.
{{- end}}
  gather
    {{g 200}} leeks, sliced | work 8 min
    {{g 10}} butter
    {{ml 250}} vegetable stock
    fine salt                                  | to taste
{{- if .Alone}}
  # A step is a dash and sentences. Below it, for the clock: where it cooks, and how long.
{{- end}}
  method
    - Melt the butter and soften the leeks.
      | ring low | work 2 min | watch 10 min
    - Pour in the vegetable stock and simmer.
      | ring low | work 1 min | leave 20 min
    - Crush the leeks with a masher and season with the fine salt.
      | work 4 min
{{- if .Alone}}
  # How it goes to the table, and how soon.
{{- end}}
  serve hot, within 10 min
{{end}}
{{define "compote"}}
  serves {{.For}}
  gather
    {{g 150}} rhubarb, cut in short lengths | work 6 min
    {{g 25}} sugar
  method
    - Cook the rhubarb with the sugar until it gives.
      | ring low | work 3 min | watch 12 min
    - Tip into a shallow dish, cool and chill.
      | work 2 min | stand 2 h, fridge
  serve cold
{{end}}
{{define "dish"}}
# A dish to begin with: write your own over it. "tamis check" says what does not add up.
dish {{.Title}}
{{- template "soup" .}}
{{end}}
{{define "menu"}}
# A menu to begin with, its kitchen and two dishes: write your own over them.
menu {{.Title}}
  covers {{.For}}
{{- if .On}}
  on the table {{.On}}
{{- else}}
  # Say the day and the hour, and there is a plan: on the table 2027-05-02 13:00
{{- end}}
  at Home
  # Each dish is a name below its course. Write ", ahead" behind one that has a pause, and it is made before.
  course First
    Leek soup
  course Pudding, 30 min after First
    Rhubarb compote
  # Work that is no dish.
  task Lay the table, work 10 min, before First

# Who cooks, and with what: the plan holds to it.
kitchen Home
{{- if .Cooks}}
  cooks {{.Cooks}}
{{- else}}
  cooks One
{{- end}}
  oven main, 2 shelves
  rings 4
  plates 20 s a cover
  clears 5 min, after each course
  cleans down 20 min

dish Leek soup
{{- template "soup" .}}
dish Rhubarb compote
{{- template "compote" .}}
{{end}}
{{define "series"}}
# A series to begin with: what each evening shows, and when. Write your own over it.
series {{.Title}}
  part 1 Soup
{{- if .On}}
    date {{day}}
{{- else}}
    # Say the day: date 2027-05-02
{{- end}}
    shows Leek soup
  part 2 Pudding
    shows Rhubarb compote

dish Leek soup
{{- template "soup" .}}
dish Rhubarb compote
{{- template "compote" .}}
{{end}}
{{define "book"}}
# A book to begin with. The folder that it lies in, and those below, belong to it.
book {{.Title}}
  # One rule of the house style a line; spec/notation.md, 2.19, has them all.
  style range to
  chapter Soups
    Leek soup
  chapter Puddings
    Rhubarb compote

# What is true of an ingredient everywhere in the book.
larder
  units metric
  butter | packs 250 g

dish Leek soup
{{- template "soup" .}}
dish Rhubarb compote
{{- template "compote" .}}
{{end}}
`
