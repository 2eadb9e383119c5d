using System.Globalization;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.Negotiation.Tests;

/// <summary>Power against voltage, at the standard's own example points. Sources beside the checks.</summary>
public class SupplyCurveTests
{
    private static readonly uint Prog9V = PpsSourceSupply.Create(V(5000), V(11000), A(3000)).Raw;
    private static readonly uint Limited9V = PpsSourceSupply.Create(V(5000), V(11000), A(3000), powerLimited: true).Raw;

    // R3.2v1.1, Figure 7.7: 27 W, 9 V Prog, PPS Power Limited: 3 A at 9 V, 2.45 A at 11 V.
    [Theory]
    [InlineData(5000, 3000)]
    [InlineData(9000, 3000)]
    [InlineData(9020, 2950)]
    [InlineData(11000, 2450)]
    public void PowerLimitedPps_FollowsFigure77(int millivolts, int milliamperes) => At(Limited9V, 27_000, millivolts).Should().Be(milliamperes);

    // R3.2v1.1, 6.4.1.2.4.1.1: with the bit clear the whole current is there up to the highest voltage, 33 W of a 27 W source.
    [Fact]
    public void OtherPps_GivesItsCurrentThroughout()
    {
        SupplyCurve curve = Curve(Prog9V, 27_000);

        curve.IsPowerLimited.Should().BeFalse();
        curve.Segments.Should().Equal(new CurveSegment(V(5000), V(11000), A(3000)));
        (curve.Segments[^1].To * curve.Segments[^1].Limit).Milliwatts.Should().Be(33_000);
    }

    // R3.2v1.1, Table 10.4: an 80 W port at 40 W gives SPR AVS 2.67 A and 2 A; requests are in steps of 50 mA (Table 6.26).
    [Fact]
    public void SprAvs_HasTwoParts()
    {
        uint word = SprAvsSourceSupply.Create(A(2670), A(2000)).Raw;

        Curve(word, 40_000).Segments.Should().Equal(
            new CurveSegment(V(9000), V(15000), A(2650)), new CurveSegment(V(15100), V(20000), A(2000)));
    }

    // R3.2v1.1, Table 10.2, note 5: above 60 W the current of 20 V may be asked for at exactly 15.0 V.
    [Theory]
    [InlineData(14900, 3000)]
    [InlineData(15000, 3250)]
    [InlineData(15100, 3250)]
    public void SprAvsAt15V_GivesTheLargerCurrent(int millivolts, int milliamperes) =>
        At(0xE004B145, 65_000, millivolts).Should().Be(milliamperes);

    // R3.2v1.1, Table 10.12: 5 A up to PDP / 5 volts, then PDP / V. 0x9048C064 of the request tables is 28.0 V 5 A of 140 W.
    [Theory]
    [InlineData(0xD230968Cu, 15000, 5000)]
    [InlineData(0xD230968Cu, 28000, 5000)]
    [InlineData(0xD2D096B4u, 36000, 5000)]
    [InlineData(0xD3C096F0u, 48000, 5000)]
    // PDP / V, rounded down to 50 mA (6.4.2.8): 100 W of a constrained port of 240 W (Table 10.13).
    [InlineData(0xD3C09664u, 20000, 5000)]
    [InlineData(0xD3C09664u, 20100, 4950)]
    [InlineData(0xD3C09664u, 28000, 3550)]
    [InlineData(0xD3C09664u, 36000, 2750)]
    [InlineData(0xD3C09664u, 48000, 2050)]
    public void EprAvs_IsFiveAmperesThenConstantPower(uint word, int millivolts, int milliamperes) =>
        At(word, 0, millivolts).Should().Be(milliamperes);

    [Theory]
    [InlineData(0x0801912Cu)]
    [InlineData(0x5A4108F0u)]
    [InlineData(0xF0000000u)]
    [InlineData(0xC016DC3Cu)] // 11 V to 1.1 V: swapped
    public void OtherKinds_HaveNoCurve(uint word) => Curve(word, 27_000).Segments.Should().BeEmpty();

    // Whatever the word: parts in order, none beyond the object, power never above its limit.
    [Fact]
    public void AnyWord_GivesAnOrderedCurve()
    {
        Random random = new(7);
        for (int round = 0; round < 20_000; round++)
        {
            uint word = (3u << 30) | ((uint)random.Next() & 0x3FFFFFFF);
            SupplyCurve curve = Curve(word, random.Next(0, 240_001));
            foreach ((CurveSegment first, CurveSegment second) in curve.Segments.Zip(curve.Segments.Skip(1)))
            {
                (first.From <= first.To && first.To < second.From && first.Limit != second.Limit).Should().BeTrue(
                    word.ToString("X8", CultureInfo.InvariantCulture));
            }
        }
    }

    private static SupplyCurve Curve(uint word, int milliwatts) =>
        SupplyCurve.Of(new OfferedObject(1, word, uint.MaxValue), Power.FromMilliwatts(milliwatts));

    private static int At(uint word, int milliwatts, int millivolts) =>
        Curve(word, milliwatts).Segments.Single(part => part.From <= V(millivolts) && V(millivolts) <= part.To).Limit.Milliamperes;

    private static Voltage V(int millivolts) => Voltage.FromMillivolts(millivolts);

    private static Current A(int milliamperes) => Current.FromMilliamperes(milliamperes);
}
