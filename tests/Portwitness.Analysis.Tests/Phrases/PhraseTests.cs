using System.Globalization;
using Portwitness.Analysis.Phrases;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Analysis.Tests.Phrases;

/// <summary>Words and values of what rules say. How values are printed is the project's own custom.</summary>
public class PhraseTests
{
    private static readonly Voltage NineVolts = Voltage.FromMillivolts(9_000);

    [Fact]
    public void InterpolatedString_KeepsWordsAndTypedValues()
    {
        Phrase phrase = $"{MessageKind.Request} asks for {NineVolts} of object {2} at {"C1"}.";

        phrase.Template.Should().Be("{0} asks for {1} of object {2} at {3}.");
        phrase.Values.Should().Equal(MessageKind.Request, NineVolts, 2, new Name("C1"));
        PhraseText.Of(phrase).Should().Be("Request asks for 9 V of object 2 at C1.");
    }

    [Fact]
    public void OfferedObject_SaysKindVoltageAndCurrent()
    {
        // 9 V 2.22 A: R3.2v1.1, Table 6.9 (voltage in 50 mV from bit 10, current in 10 mA).
        Phrase phrase = $"{new OfferedObject(2, (180u << 10) | 222, uint.MaxValue)}";

        phrase.Should().Be("fixed 9 V 2.22 A");
        Flat(phrase).Should().Equal(PowerObjectKind.Fixed, NineVolts, Current.FromMilliamperes(2_220));
    }

    [Fact]
    public void Literal_IsWordsWithoutValues()
    {
        Phrase phrase = "no such object";

        (phrase.Template, phrase.Values.Count(), phrase.IsEmpty).Should().Be(("no such object", 0, false));
        ((Phrase)"").IsEmpty.Should().BeTrue();
        PhraseText.Of(null).Should().BeEmpty();
    }

    [Fact]
    public void PhrasesWithTheSameWordsAndValues_AreEqual()
    {
        Phrase first = $"at {NineVolts} and " + $"no more";
        Phrase same = $"at {Voltage.FromMillivolts(9_000)} and no more";

        (first == same, first.GetHashCode() == same.GetHashCode()).Should().Be((true, true));
        (first == Phrase.Of($"at {Voltage.FromMillivolts(9_050)} and no more")).Should().BeFalse();
        (first == Phrase.Of($"up to {NineVolts} and no more")).Should().BeFalse();
        (Phrase.Of($"{"9 V"}") == Phrase.Of($"{NineVolts}")).Should().BeFalse("a name is no voltage");
    }

    [Fact]
    public void PhraseInAPhrase_AndPhrasesBehindEachOther()
    {
        Phrase inner = $"up to {NineVolts}";
        Phrase outer = $"The port gives {inner}.";

        outer.Values.Should().Equal(inner);
        outer.Should().Be("The port gives up to 9 V.");
        (inner + ", and no more").Should().Be("up to 9 V, and no more");
        (inner + Phrase.Empty == inner).Should().BeTrue();
        Phrase.Join("; ", [inner, "nothing", inner]).Should().Be("up to 9 V; nothing; up to 9 V");
        Phrase.JoinNames(" and ", ["C1", "C2"]).Values.Should().Equal(new Name("C1"), new Name("C2"));
        Phrase.Join("; ", []).IsEmpty.Should().BeTrue();
    }

    [Fact]
    public void BranchThatBeginsWithOf_KeepsItsValues()
    {
        bool known = NineVolts > Voltage.Zero;
        Phrase phrase = known ? Phrase.Of($"{NineVolts}") : $"no voltage, {2} objects";

        phrase.Values.Should().Equal(NineVolts);
    }

    [Theory]
    [InlineData(12_345, DurationForm.Exact, "12.345 ms")]
    [InlineData(1_200_000, DurationForm.Exact, "1.2 s")]
    [InlineData(195, DurationForm.Limit, "195 us")]
    [InlineData(27_500, DurationForm.Limit, "27.5 ms")]
    [InlineData(12_250_000, DurationForm.Limit, "12.25 s")]
    [InlineData(211_500, DurationForm.Milliseconds, "212 ms")]
    [InlineData(4_753_000, DurationForm.Moment, "4.753 s")]
    [InlineData(502_000, DurationForm.Offer, "502 ms")]
    [InlineData(12_590_000, DurationForm.Offer, "12.5 s")]
    [InlineData(602_000_000, DurationForm.Offer, "10 min 2 s")]
    [InlineData(11_100_000_000, DurationForm.Offer, "3 h 5 min")]
    [InlineData(18_700, DurationForm.Log, "18.7 ms")]
    [InlineData(5_200_000, DurationForm.Log, "5.2 s")]
    [InlineData(4_325_000_000, DurationForm.Log, "1 h 12 min 5 s")]
    public void Duration_IsToldAsExactlyAsItsForm(long us, DurationForm form, string text) =>
        Phrase.Of($"{new Duration(us, form)}").Should().Be(text);

    [Theory]
    [InlineData(4_952_000, QuantityUnit.Microvolts, "4.952 V")]
    [InlineData(2_005_000, QuantityUnit.Microamperes, "2.005 A")]
    [InlineData(65_000, QuantityUnit.Milliwatts, "65 W")]
    [InlineData(9_876_500, QuantityUnit.MicroampereHours, "9876.5 mAh")]
    [InlineData(10_000, QuantityUnit.MilliampereHours, "10000 mAh")]
    [InlineData(36_520_000, QuantityUnit.MicrowattHours, "36.52 Wh")]
    [InlineData(37_000, QuantityUnit.MilliwattHours, "37 Wh")]
    [InlineData(832_040, QuantityUnit.PartsPerMillion, "83.2 %")]
    [InlineData(873_450, QuantityUnit.PartsPerMillionOfLimit, "87.35 %")]
    [InlineData(512, QuantityUnit.PartsPerMillionExactly, "0.0512 %")]
    public void Quantity_IsToldInItsUnit(long value, QuantityUnit unit, string text) =>
        Phrase.Of($"{new Quantity(value, unit)}").Should().Be(text);

    [Fact]
    public void English_IsTheSameWhereverItRuns()
    {
        CultureInfo before = CultureInfo.CurrentCulture;
        try
        {
            CultureInfo other = (CultureInfo)CultureInfo.InvariantCulture.Clone();
            (other.NumberFormat.NumberDecimalSeparator, other.NumberFormat.NegativeSign) = (",", "~");
            CultureInfo.CurrentCulture = other;

            Phrase.Of($"{Voltage.FromMillivolts(3_300)}, {new Duration(1_500, DurationForm.Exact)}, {-1}, 0x{0xABu:X4}").Should()
                .Be("3.3 V, 1.5 ms, -1, 0x00AB");
        }
        finally
        {
            CultureInfo.CurrentCulture = before;
        }
    }

    private static IEnumerable<object> Flat(Phrase phrase) => phrase.Values.SelectMany(static value => value is Phrase inner ? Flat(inner) : [value]);
}
