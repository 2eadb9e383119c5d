using System.Text;
using Portwitness.Analysis.Phrases;
using Portwitness.Product.Handling;

namespace Portwitness.Product.Tests.Handling;

/// <summary>Rules about carrying packs by their days; second-hand, as pages of regulators, carriers and the press restate them.</summary>
public class TravelCardTests
{
    [Theory]
    [InlineData("2014-08-06", 0)]
    [InlineData("2014-08-07", 1)]
    [InlineData("2025-06-27", 3)]
    [InlineData("2025-06-28", 4)]
    [InlineData("2026-03-26", 7)]
    [InlineData("2026-03-27", 8)]
    [InlineData("2026-12-01", 10)]
    [InlineData("2027-04-01", 12)]
    public void Card_HasTheRulesOfItsDay(string day, int rules) => Card($"{{as_of: {day}}}").Rules.Should().HaveCount(rules);

    // 100 and 160 Wh at 3.7 V are 27,027 and 43,243 mAh.
    [Theory]
    [InlineData(27_027, "up to 100 Wh")]
    [InlineData(27_028, "more than 100 Wh, up to 160 Wh")]
    [InlineData(43_243, "more than 100 Wh, up to 160 Wh")]
    [InlineData(43_244, "more than 160 Wh")]
    public void Energy_IsThatOfTheCells(int milliampereHours, string band) =>
        PhraseText.Of(Card("{as_of: 2026-12-01}", $"battery: {{cells: {{capacity_mah: {milliampereHours}, nominal_v: 3.7}}}}\n").Energy).Should().EndWith(band);

    [Fact]
    public void EnergyThatNobodyStates_IsSaid() => PhraseText.Of(Card("{as_of: 2026-12-01}").Energy).Should().Be("no watt-hours are stated, printed or can be reckoned");

    [Theory]
    [InlineData("", "nobody says which marks it has")]
    [InlineData(", marks: []", "its mark is not among those seen")]
    [InlineData(", marks: [CE, ccc]", "its mark was seen")]
    public void Mark_IsOnlyWhatWasSeen(string marks, string told) => Card($"{{as_of: 2026-12-01{marks}}}").Rules.Where(static one => one.Rule.Mark == TravelMark.Ccc)
        .Select(static one => one.Mark).Should().Equal(told);

    // Whatever it says, it decides nothing.
    [Fact]
    public void Card_GivesNoFinding_AndLeavesTheDecisionToTheCarrier()
    {
        ProductAnalysis analysis = ProductRun.Typed("product: x\nlabel: \"USB-C: 5V 3A\"\ntravel: {as_of: 2027-05-01, marks: []}\n");

        analysis.Findings.Should().BeEquivalentTo(ProductRun.Typed("product: x\nlabel: \"USB-C: 5V 3A\"\n").Findings);
        analysis.Travel!.Remarks.Should().Equal(
            "What was made after 2026-11-30 is not known here.", "All of it is second-hand: the carrier, who may be stricter, and local rules decide.");
    }

    [Fact]
    public void EveryState_HasAdviceThatDefers()
    {
        foreach (ProductState state in Enum.GetValues<ProductState>().Where(static state => state != ProductState.NotStated))
        {
            HandlingAdvice.Of(state).Should().HaveCount(3).And.EndWith("Local rules, the carrier and the instructions of the maker come before this advice.");
        }

        HandlingAdvice.Of(ProductState.NotStated).Should().BeEmpty();
    }

    [Theory]
    [InlineData("travel: {marks: [3C]}", "a travel card needs its day")]
    [InlineData("travel: {as_of: 1.12.2026}", "a day was expected in \"as_of\", as 2026-12-01")]
    [InlineData("state: dropped", "\"state:\" is sealed, opened, swollen, to-be-disposed")]
    [InlineData("opened: yesterday", "a day was expected in \"opened\"")]
    public void WhatCannotBeRead_IsSaid(string member, string told) => ProductRun.Typed($"product: x\nlabel: \"USB-C: 5V 3A\"\n{member}\n").Faults
        .Should().Contain(fault => fault.Fault.Detail.Contains(told, StringComparison.Ordinal));

    // What is read on the day of opening was read of an opened product.
    [Theory]
    [InlineData("2026-03-02", true)]
    [InlineData("2026-03-03", false)]
    public void EvidenceOfAnOpenedProduct_IsMarked(string opened, bool isSince)
    {
        ProductAnalysis analysis = ProductRun.Typed(
            $$"""
            product: x
            opened: {{opened}}
            offers: [{port: C, list: [5V 3A], read_on: 2026-03-02, from: a display}]
            loads: [{port: A, at: 5V 1A, measured: 5V 1A, read_on: 2026-03-01}, {port: A, at: 5V 2A, measured: 5V 2A}]
            """);

        analysis.Opening.Should().Equal(
            isSince ? $"Opened on {opened}. Taken since then, and no evidence of a sealed product: offers of C, read off a display on 2026-03-02."
                : $"Opened on {opened}. Nothing is dated since then.",
            "Without a day: 1 of its captures, logs, loads and offers; \"read_on:\" tells it.");
    }

    // The header of a capture says when it began; "read_on:" goes before it. Clocks that were never set begin in 1970.
    [Theory]
    [InlineData("2026-03-05T10:02:00Z", "", "Taken since then, and no evidence of a sealed product: c.jsonl, of 2026-03-05.")]
    [InlineData("2026-03-05T23:30:00-08:00", "", "Taken since then, and no evidence of a sealed product: c.jsonl, of 2026-03-05.")]
    [InlineData("2026-03-05T10:02:00Z", ", read_on: 2026-03-03", "Nothing is dated since then.")]
    [InlineData("1970-01-01T00:00:07Z", "", "Nothing is dated since then.|Without a day: 1 of its captures, logs, loads and offers; \"read_on:\" tells it.")]
    [InlineData("", ", read_on: 2026-03-04", "Taken since then, and no evidence of a sealed product: c.jsonl, of 2026-03-04.")]
    public void CaptureOfAnOpenedProduct_IsMarked(string started, string readOn, string told)
    {
        using ProductCheck check = ProductCheck.ForProduct("product.yaml", $"product: x\nopened: 2026-03-04\ncaptures: [{{file: c.jsonl, port: C{readOn}}}]\n", null);
        string stamp = started.Length > 0 ? $",\"started\":\"{started}\"" : "";
        check.Open("c.jsonl").Write(Encoding.UTF8.GetBytes($"{{\"capture\":1,\"port\":\"C\"{stamp}}}\n"));
        check.Close();

        string.Join("|", check.Complete().Opening).Should().Be($"Opened on 2026-03-04. {told}");
    }

    private static TravelCard Card(string travel, string members = "parts: [{part: Q1, node: C, volts: 30V}]\n") =>
        ProductRun.Typed($"product: x\n{members}travel: {travel}\n").Travel!;
}
