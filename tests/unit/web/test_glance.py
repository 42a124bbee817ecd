"""Numbers that are links: each shown number once, at its own address, and nothing unescaped."""

from __future__ import annotations

import re
from html import unescape
from urllib.parse import unquote

from oatsack.reports.formats.html_blocks import marked
from oatsack.reports.telling import telling
from oatsack.web.glance import facts, figures, linked, opened
from oatsack.web.menu_view import days
from oatsack.why import why
from support.sample_plan import sample_plan


def test_a_number_is_linked_once_and_only_as_a_whole() -> None:
    made = str(linked("4.9 kg, 14.9 kg, 4.9 kg", [("4.9 kg", "totals/start_kg")], "/trip/a"))
    assert made.count("<a ") == 1
    assert made.index("<a ") == 0
    assert "14.9\N{NO-BREAK SPACE}kg" in made, "a longer number is left alone"


def test_a_sentence_is_escaped_before_anything_is_linked() -> None:
    made = str(linked("<b> & 5 g", [("5 g", "a/b c")], "/trip/x"))
    assert made.startswith("&lt;b&gt; &amp; ") and "why?at=a/b%20c" in made


def test_two_equal_numbers_are_not_nested_into_each_other() -> None:
    shown = [("3.4 kg", "one"), ("3.4 kg", "two")]
    made = str(linked("3.4 kg and 3.4 kg", shown, ""))
    assert re.fullmatch(r"<a [^>]*one[^>]*>[^<]*</a> and <a [^>]*two[^>]*>[^<]*</a>", made)


def test_every_link_of_the_facts_and_figures_opens_and_shows_its_own_number() -> None:
    for plan in (sample_plan(walkers=1), sample_plan(walkers=2, units="us"),
                 sample_plan(walkers=12)):  # fmt: skip
        told = telling(plan)
        found = [at for f in figures(told) for at in [f.at]]
        html = " ".join(str(text) for _, text in facts(told, "/trip/x"))
        hrefs = re.findall(r'href="/trip/x/why\?at=([^"]+)"', html)
        linked_ = [unquote(at) for href in hrefs for at in unescape(href).split("&at=")]
        assert len(linked_) >= 4
        for at in (*found, *linked_):
            why(plan, at)  # raises for what nobody explains


def test_a_number_that_comes_of_several_names_them_all() -> None:
    made = str(linked("about 750", [("750", "menu/pools/0/by_day_g/1|foods/a b/x")], "/trip/x"))
    assert made == ('about <a href="/trip/x/why?at=menu/pools/0/by_day_g/1&amp;at=foods/a%20b/x">'
                    "750</a>")  # fmt: skip
    cell = str(opened('<td data-why="a/1|b+c/2">3</td>', ""))
    assert cell == '<td><a href="/why?at=a/1&amp;at=b%2Bc/2">3</a></td>'


def test_sentences_of_reports_bear_addresses_too() -> None:
    made = marked("5 g burnt, 15 g kept", [("15 g", "a/b"), ("5 g", "c/d")])
    assert made.count("data-why") == 2 and made.index('"c/d"') < made.index('"a/b"')
    assert str(opened(f"<p>{made}</p>", "/t")).count("<a href=") == 2


def test_the_line_of_each_walker_opens_what_it_is_made_of() -> None:
    told = telling(sample_plan(walkers=1))
    (line,) = (str(text) for _, text in facts(told, "/t") if "full day uses" in str(text))
    assert line.count("<a ") >= 4, "what is eaten, what is used and both ends of its range"
    assert "at=need/" in line


def test_no_price_means_no_price_figure() -> None:
    import dataclasses

    plan = sample_plan()
    bare = dataclasses.replace(plan, totals=dataclasses.replace(plan.totals, price=None))
    assert "price" not in [f.key for f in figures(telling(bare))]


def test_cells_with_an_address_become_links_and_others_stay() -> None:
    html = '<tr><td class="r" data-why="need/a b/1/x">3</td><td>4</td></tr>'
    made = str(opened(html, "/trip/x"))
    assert made == ('<tr><td class="r"><a href="/trip/x/why?at=need/a%20b/1/x">3</a></td>'
                    "<td>4</td></tr>")  # fmt: skip


def test_each_food_of_a_meal_is_one_row_with_its_eaters() -> None:
    plan = sample_plan(walkers=2)
    shown = days(telling(plan), frozenset())
    assert [d.number for d in shown] == [d.number for d in plan.days]
    for day in shown:
        for meal in day.meals:
            names = [line.name for line in meal.lines]
            assert len(names) == len(set(names))
            eaten = {(p.walker, p.food) for p in plan.menu.portions
                     if p.day == day.number and p.meal == meal.key}  # fmt: skip
            assert sum(len(line.shares) for line in meal.lines) == len(eaten)


def test_many_eaters_are_counted_and_what_is_new_is_marked_for_all() -> None:
    plan = sample_plan(walkers=12)
    p = plan.menu.portions[0]
    shown = days(telling(plan), frozenset({(p.walker, p.day, p.meal, p.food)}))
    shares = [s for d in shown for m in d.meals for line in m.lines for s in line.shares]
    assert any("eat it" in s.text for s in shares)
    assert sum(s.new for s in shares) == 1


def test_a_folded_day_is_open_where_something_changed_and_small_parties_fold_none() -> None:
    plan = sample_plan(walkers=5, days=3)
    last = next(p for p in plan.menu.portions if p.day == 3)
    shown = days(telling(plan), frozenset({(last.walker, last.day, last.meal, last.food)}))
    assert [(d.number, d.open, bool(d.brief)) for d in shown] == [
        (1, True, True), (2, False, True), (3, True, True)]  # fmt: skip
    one_day = days(telling(plan), frozenset(), range(1, 2))
    few = days(telling(sample_plan(walkers=4, days=3)), frozenset())
    assert [d.brief for d in (*one_day, *few)] == [""] * 4
