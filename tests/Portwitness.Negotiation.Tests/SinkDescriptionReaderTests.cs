using System.Text;
using Portwitness.Analysis.Evidence;
using Portwitness.Captures;
using Portwitness.PowerDelivery.Limits;
using Portwitness.PowerDelivery.PowerData;

namespace Portwitness.Negotiation.Tests;

/// <summary>Descriptions of devices, and what is wrong with them, in whole sentences with line and column.</summary>
public class SinkDescriptionReaderTests
{
    [Fact]
    public void WordsAndYaml_DescribeTheSameDevice()
    {
        SinkDescription words = NegotiationRun.Sink("fixed 5V, 9V 2A; pps 3.3-11V 3A; wish 25W; minimum 10W; cable 3A; edition R3.1");
        SinkList yaml = SinkDescriptionReader.OfYaml("fixed: [5V, 9V 2A]\npps: 3.3-11V 3A\nwish: 25W\nminimum: 10W\ncable: 3A\nedition: R3.1\n");

        yaml.Faults.Should().BeEmpty();
        yaml.Sinks[0].Should().BeEquivalentTo(words);
        (words.Cable, words.Edition, words.Minimum!.Value.Milliwatts).Should().Be((CableEvidence.ThreeAmpere, Editions.R31, 10_000));
    }

    [Fact]
    public void ShippedDevices_CoverTheClasses()
    {
        ShippedSinks.All.Select(sink => sink.Name).Should().Equal(
            "basic-5v", "phone-20w", "phone-pps-3a", "phone-pps-5a", "laptop-45w", "laptop-65w", "laptop-100w", "laptop-140w", "laptop-240w");
        ShippedSinks.All.Should().OnlyContain(sink => sink.Title.Length > 0 && sink.Minimum != null);
        ShippedSinks.All.Where(sink => sink.UsesEpr).Should().HaveCount(2);
    }

    [Fact]
    public void ShippedDevices_AreReadFromTheirOwnWords()
    {
        foreach (SinkDescription sink in ShippedSinks.All)
        {
            SinkDescription read = NegotiationRun.Sink(sink.ToWords());
            (read with { Name = sink.Name, Title = sink.Title }).Should().BeEquivalentTo(sink);
        }

        SinkDescriptionReader.OfWords("all").Sinks.Should().Equal(ShippedSinks.All);
    }

    [Theory]
    [InlineData("fixed 5V; wish", 1, 15, "a power from 0.1 W to 240 W was expected in \"wish\", as \"25W\"")]
    [InlineData("fixed 5V; wish 9999999999W", 1, 16, "a power from 0.1 W to 240 W was expected in \"wish\", as \"25W\"")]
    [InlineData("fixed 5V; wish -5W", 1, 16, "a power from 0.1 W to 240 W was expected in \"wish\", as \"25W\"")]
    [InlineData("fixed 5V, 9X; wish 5W", 1, 11, "\"9X\" is no voltage; one as \"9V\" or \"9V 2A\" was expected")]
    [InlineData("fixed 5V, 900V; wish 5W", 1, 11, "voltages from 3 V to 50 V, the lower one first, were expected; \"900V\" is not within")]
    [InlineData("fixed 5V 80A; wish 5W", 1, 7, "a current from 0.01 A to 5 A was expected; \"5V 80A\" is not within")]
    [InlineData("fixed 5V; pps 11-3.3V; wish 5W", 1, 15, "voltages from 3 V to 50 V, the lower one first, were expected; \"11-3.3V\" is not within")]
    [InlineData("fixed 5V; pps 5V; wish 5W", 1, 15, "\"5V\" is no range; one as \"3.3-11V\" or \"3.3-11V 3A\" was expected")]
    [InlineData("fixed 9V; wish 5W", 1, 1, "\"fixed\" has no 5V; every device begins with it (R3.2v1.1, 6.4.1.4)")]
    [InlineData("fixed 5V; colour red; wish 5W", 1, 11, "\"colour\" is no member of a device. Known members: name, title, fixed, pps, avs, variable, wish, minimum, cable, edition")]
    [InlineData("fixed 5V; fixed 5V; wish 5W", 1, 11, "\"fixed\" is said twice")]
    [InlineData("fixed 5V, 9V 2A, 9V 3A; wish 5W", 1, 1, "\"fixed\" has 9 V twice; say it once, with the larger current")]
    [InlineData("fixed 5V; wish 5W; minimum 6W", 1, 1, "the minimum of 6 W is more than the wish of 5 W")]
    [InlineData("fixed 5V; wish 5W; cable 4A", 1, 26, "a cable was expected: 3A, 5A or EPR")]
    [InlineData("fixed 5V; wish 5W; edition R9", 1, 28, "an edition was expected: R2.0, R3.0, R3.1 or R3.2")]
    [InlineData("fixed 5V; pps 3.3-11V; wish 5W; edition R2.0", 1, 1, "R2.0 has no PPS; state a later edition, or leave \"pps\" out")]
    [InlineData("fixed 5V, 28V; wish 5W; edition R3.0", 1, 1, "R3.0 has neither AVS nor more than 20 V; state R3.1 or R3.2, or leave them out")]
    public void WrongWords_AreExplainedAtTheirPlace(string words, int line, int column, string detail)
    {
        SinkList list = SinkDescriptionReader.OfWords(words);

        list.Sinks.Should().BeEmpty();
        list.Faults.Should().ContainSingle();
        (list.Faults[0].Line, list.Faults[0].Column, list.Faults[0].Detail).Should().Be((line, column, detail));
    }

    [Theory]
    [InlineData("", 1, 1, "the file is empty")]
    [InlineData("- [", 0, 0, "not readable as YAML")]
    [InlineData("just words", 1, 1, "was expected")]
    [InlineData("- fixed: 5V\n  wish: 5W\n- 7", 3, 3, "a device with \"fixed:\" and \"wish:\" was expected")]
    [InlineData("fixed:\n  - {a: b}\nwish: 5W", 2, 5, "text, or a list of text, was expected")]
    [InlineData("fixed: [5V]\nwish: 5W\nwish: 9W", 3, 1, "said twice")]
    [InlineData("fixed: &x [5V]\nwish: *x", 2, 7, "aliases")]
    public void WrongYaml_IsExplainedAtItsPlace(string yaml, int line, int column, string detail)
    {
        SinkList list = SinkDescriptionReader.OfYaml(yaml);

        list.Faults.Should().ContainSingle();
        list.Faults[0].Detail.Should().Contain(detail);
        if (line > 0)
        {
            (list.Faults[0].Line, list.Faults[0].Column).Should().Be((line, column));
        }
    }

    [Theory]
    [InlineData(SinkDescriptionReader.MaxCharacters + 1)]
    [InlineData(5_000_000)]
    public void EndlessText_IsRefused(int length)
    {
        SinkDescriptionReader.OfWords(new string('x', length)).Faults.Should().ContainSingle();
        SinkDescriptionReader.OfYaml(new string('x', length)).Faults.Should().ContainSingle();
    }

    [Fact]
    public void ArbitraryText_NeverThrows()
    {
        string[] pieces = ["fixed", "pps", "wish", "5V", "3.3-11V", "3A", ";", ",", ":", "\n", " ", "-", "[", "]", "{", "}", "\"", "#", "0", "99999999999", "é", "\0", "EPR"];
        Random random = new(11);
        for (int round = 0; round < 20_000; round++)
        {
            StringBuilder text = new();
            for (int piece = random.Next(12); piece >= 0; piece--)
            {
                text.Append(pieces[random.Next(pieces.Length)]);
            }

            (SinkDescriptionReader.OfWords(text.ToString()).Faults.Length + SinkDescriptionReader.OfWords(text.ToString()).Sinks.Length).Should().BePositive();
            (SinkDescriptionReader.OfYaml(text.ToString()).Faults.Length + SinkDescriptionReader.OfYaml(text.ToString()).Sinks.Length).Should().BePositive();
        }
    }

    // Any list of words, any device: an answer, and each object accounted for.
    [Fact]
    public void ArbitraryLists_NeverThrow()
    {
        Random random = new(13);
        for (int round = 0; round < 5_000; round++)
        {
            uint[] words = [.. Enumerable.Range(0, random.Next(0, 18)).Select(_ => (uint)random.NextInt64(1L << 32))];
            SourceOffer offer = NegotiationRun.Offer(words, random.Next(2) == 0 ? words : null);
            SinkDescription sink = ShippedSinks.All[random.Next(ShippedSinks.All.Length)];

            SinkNegotiation negotiation = Negotiator.Of(offer, sink, SinkPolicy.All[random.Next(SinkPolicy.All.Length)]);

            negotiation.Uses.Length.Should().BeGreaterThanOrEqualTo(Math.Min(words.Length, 7));
            negotiation.Uses.Where(use => use.Why.Length == 0).Should().BeEmpty();
            negotiation.Best?.Terms.Kind.Should().NotBe(PowerObjectKind.Reserved);
        }
    }

    [Fact]
    public void UnknownMember_NamesWhatIsMeant()
    {
        CaptureFault fault = SinkDescriptionReader.OfYaml("fixed: [5V]\nwish: 9W\nminumum: 5W").Faults.Single();

        (fault.Line, fault.Column).Should().Be((3, 1));
        fault.Detail.Should().Contain("Did you mean \"minimum\"?");
    }
}
