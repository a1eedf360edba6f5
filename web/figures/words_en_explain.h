// Names of figures, and the sentence behind each: words, a colon, the sum {0}, the figure {1}.
// The sum is parsed by a test: nothing may stand between the last colon and "{0} = {1}.".
#pragma once
#include "web/words/table.h"

namespace tallyblock {

inline constexpr Word kExplainWords[] = {
    // headline
    {"figure.portion-of", "{0} of {1}"},
    {"figure.portion-cost", "Portion cost without labour, {0}"},
    {"explain.portion-cost",
     "The portion times what was paid less the value of the other piles, over the weight of all "
     "portions: {0} = {1}."},
    {"figure.cost-per-primary", "Portions, per {0}"},
    {"explain.cost-per-primary",
     "What was paid less the value of the other piles, over the weight of the portions: {0} = "
     "{1}."},
    // yields
    {"figure.primary-share", "Portions, of the whole"},
    {"explain.primary-share", "Portions over the whole weight as purchased: {0} = {1}."},
    {"figure.saleable-share", "Portions and secondary cuts, of the whole"},
    {"explain.saleable-share",
     "Portions and secondary cuts over the whole weight as purchased: {0} = {1}."},
    {"figure.usable-share", "Everything usable, of the whole"},
    {"explain.usable-share",
     "Portions, secondary cuts and usable trim over the whole weight as purchased: {0} = {1}."},
    {"figure.loss", "Lost in cutting"},
    {"explain.loss", "What lay on the board less every pile: {0} = {1}."},
    {"figure.loss-share", "Lost in cutting, of the whole"},
    {"explain.loss-share", "The loss in cutting over the whole weight as purchased: {0} = {1}."},
    // costs
    {"figure.cost", "Paid for the whole piece"},
    {"explain.cost", "The weight as purchased times its price: {0} = {1}."},
    {"figure.cost-total", "Paid for the whole piece"},
    {"explain.cost-total", "What the invoice says: {0} = {1}."},
    {"figure.by-product-value", "Value of the other piles"},
    {"explain.by-product-value",
     "Each pile that is not portions, its weight times its value, added up: {0} = {1}."},
    {"figure.net-cost", "Value of the portions (net cost)"},
    {"explain.net-cost", "What was paid less the value of the other piles: {0} = {1}."},
    {"explain.cents", "Shown as {0}, so that the cents add up to what was paid."},
    {"figure.cost-per-primary-no-credit", "Portions without any credit"},
    {"explain.cost-per-primary-no-credit",
     "What was paid over the weight of the portions, nothing else counted: {0} = {1}."},
    {"figure.cost-per-usable", "Everything usable, per {0}"},
    {"explain.cost-per-usable", "What was paid over all that is usable: {0} = {1}."},
    {"figure.labour", "Labour"},
    {"explain.labour", "Minutes times the hourly wage, over sixty: {0} = {1}."},
    {"figure.cost-with-labour", "Portions with labour"},
    {"explain.cost-with-labour",
     "What was paid less the value of the other piles plus labour, over the weight of the "
     "portions: "
     "{0} = {1}."},
    // factors
    {"figure.factor-nothing-saved", "Portions alone carry all"},
    {"explain.factor-nothing-saved",
     "The whole weight over the portions, as if nothing else were used: {0} = {1}."},
    {"figure.factor-all-usable", "Everything usable carries alike"},
    {"explain.factor-all-usable", "The whole weight over all that is usable: {0} = {1}."},
    {"figure.cost-factor", "Cost factor, other piles credited"},
    {"explain.cost-factor",
     "The cost of portions by weight, other piles credited, over the price paid: {0} = {1}."},
    // portion costs
    {"figure.portion-with-labour", "Portion cost with labour, {0}"},
    {"explain.portion-with-labour",
     "The portion times the net cost plus labour, over the weight of all portions: {0} = {1}."},
    {"figure.portion-no-credit", "Portion cost without credit"},
    {"explain.portion-no-credit",
     "The portion times all that was paid, over the weight of all portions: {0} = {1}."},
    {"figure.portion-factor", "Cost factor of one portion"},
    {"explain.portion-factor",
     "The portion cost over the price paid; times a new price it gives the new portion cost: "
     "{0} = {1}."},
    // price update
    {"figure.update-move", "Portions, if other values move with the price"},
    {"explain.update-move", "The cost factor times the new price: {0} = {1}."},
    {"figure.update-held", "Portions, if other values stay"},
    {"explain.update-held",
     "The whole weight at the new price less the value of the other piles, over the weight of the "
     "portions: {0} = {1}."},
    {"figure.update-portion", "Portion cost then, {0}"},
    {"explain.update-portion", "The portion times the cost factor times the new price: {0} = {1}."},
    // cut it yourself or buy it cut
    {"figure.ready-cut-by-weight", "Ready-cut, by weight"},
    {"explain.ready-cut-by-weight",
     "The ready-cut price over the number of pieces times the weight of one: {0} = {1}."},
    {"figure.ready-cut-same-trim", "Ready-cut, to the same trim"},
    {"explain.ready-cut-same-trim", "The ready-cut price over its own yield: {0} = {1}."},
    {"figure.saving", "Saved by cutting it yourself"},
    {"explain.saving",
     "The portions at the ready-cut price plus the value of the other piles, less what was paid "
     "and "
     "less labour: {0} = {1}."},
    {"figure.may-be-spoiled", "You could have spoiled, counted as {0}"},
    {"explain.may-be-spoiled",
     "The portions less the weight of portions at which cutting just pays; what is spoiled counts "
     "as {2}: {0} = {1}."},
    {"figure.may-be-binned", "You could have thrown away"},
    {"explain.may-be-binned",
     "The portions less the weight of portions at which cutting just pays, when what is spoiled is "
     "worth "
     "nothing: {0} = {1}."},
    {"figure.more-needed", "Portions lacking to come out even"},
    {"explain.more-needed",
     "The weight of portions at which cutting just pays, what is spoiled counting as {2}, less the "
     "portions: {0} = {1}."},
    {"explain.worth-nothing", "worth nothing"},
    {"figure.break-even-ready-cut", "Buying it ready-cut pays below"},
    {"explain.break-even-ready-cut",
     "What was paid plus labour less the value of the other piles, over the weight of the "
     "portions: "
     "{0} = {1}."},
    {"figure.break-even-as-quoted", "As quoted, before its own trim"},
    {"explain.break-even-as-quoted", "The same times the yield of the ready-cut: {0} = {1}."},
    {"figure.break-even-minutes", "Cutting pays up to"},
    {"explain.break-even-minutes",
     "What is left for labour, times sixty, over the hourly wage: {0} = {1}."},
    {"figure.break-even-ap-price", "The whole piece may cost up to"},
    {"explain.break-even-ap-price",
     "The portions at the ready-cut price plus the value of the other piles less labour, over the "
     "whole weight: {0} = {1}."},
    // portions against target
    {"figure.portions-mean", "Average portion"},
    {"explain.portions-mean", "All portions added up, over their number: {0} = {1}."},
    {"figure.portions-median", "Middle portion (median)"},
    {"explain.portions-median", "The one in the middle when set in order of weight: {0} = {1}."},
    {"figure.portions-s", "Spread (standard deviation)"},
    {"explain.portions-s",
     "The root of the squared distances from the average, over one less than their number: "
     "{0} = {1}."},
    {"figure.portions-range", "Heaviest less lightest"},
    {"explain.portions-range", "The heaviest portion less the lightest: {0} = {1}."},
    {"figure.portions-bias", "Average against target"},
    {"explain.portions-bias", "The average less the target: {0} = {1}."},
    {"figure.portions-within", "Within tolerance"},
    {"explain.portions-within", "Portions within tolerance over all portions: {0} = {1}."},
    {"figure.portions-over", "Weight given over target"},
    {"explain.portions-over", "What each heavy portion has over its target, added up: {0} = {1}."},
    {"figure.portions-over-cost", "Money given over target"},
    {"explain.portions-over-cost",
     "The weight over target times what was paid less the value of the other piles, over the "
     "weight "
     "of the portions: {0} = {1}."},
};

}  // namespace tallyblock
