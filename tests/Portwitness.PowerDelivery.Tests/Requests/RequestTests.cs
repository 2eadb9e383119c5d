using CsCheck;
using Portwitness.PowerDelivery.Layout;
using Portwitness.PowerDelivery.PowerData;
using Portwitness.PowerDelivery.Requests;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.Tests.Requests;

public sealed class RequestTests
{
    // R3.2v1.1, 6.4.2: the selected object decides how the same word reads. Words from shared/vectors.
    [Theory]
    [InlineData(0x43051545, 0x00064145, "FixedVariable 20 V 3.25 A -")]
    [InlineData(0x43051545, 0x86E17D2C, "FixedVariable - 3.25 A -")]
    [InlineData(0x3002D0B4, 0x5A4108F0, "Battery - - 45 W")]
    [InlineData(0x6303843C, 0xC0DC323C, "Pps 9 V 3 A -")]
    [InlineData(0x5003D83C, 0xE004B12C, "Avs 12.3 V 3 A -")]
    [InlineData(0x9048C064, 0xD230968C, "Avs 28 V 5 A -")]
    [InlineData(0x43051545, 0xF0000000, "Unknown - - -")]
    public void Request_ReadAgainstTheSelectedObject_GivesItsTerms(uint request, uint selected, string expected)
    {
        RequestTerms terms = RequestTerms.Read(new RequestObject(request), new SourcePowerObject(selected));
        $"{terms.Shape} {Text(terms.Voltage)} {Text(terms.Current)} {Text(terms.Power)}".Should().Be(expected);
    }

    [Theory]
    [InlineData(PowerObjectKind.Fixed, "Fixed and Variable RDO", "Fixed and Variable RDO, before R3.1", "Fixed and Variable RDO with GiveBack")]
    [InlineData(PowerObjectKind.Variable, "Fixed and Variable RDO", "Fixed and Variable RDO, before R3.1", "Fixed and Variable RDO with GiveBack")]
    [InlineData(PowerObjectKind.Battery, "Battery RDO", "Battery RDO, before R3.1", "Battery RDO with GiveBack")]
    [InlineData(PowerObjectKind.Pps, "PPS RDO", "PPS RDO, before R3.1", "PPS RDO, before R3.1")]
    [InlineData(PowerObjectKind.SprAvs, "AVS RDO", "Request of an unknown object, before R3.1", "Request of an unknown object, before R3.1")]
    [InlineData(PowerObjectKind.EprAvs, "AVS RDO", "Request of an unknown object, before R3.1", "Request of an unknown object, before R3.1")]
    [InlineData(PowerObjectKind.Reserved, "Request of an unknown object", "Request of an unknown object, before R3.1", "Request of an unknown object, before R3.1")]
    public void SelectedKind_GivesTheLayout(PowerObjectKind kind, string since31, string before31, string giveBack)
    {
        RequestObject.LayoutFor(kind).Name.Should().Be(since31);
        new RequestObject(0).LayoutBeforeR31For(kind).Name.Should().Be(before31);
        new RequestObject(1u << 27).LayoutBeforeR31For(kind).Name.Should().Be(giveBack);
    }

    // R3.2v1.1, Tables 6.23 to 6.26: four bits; R2.0 and R3.0: three bits, bit 31 reserved (kernel headers).
    [Theory]
    [InlineData(0x1000C832, 1, 1)]
    [InlineData(0x70083263, 7, 7)]
    [InlineData(0x8047D1F4, 8, 0)]
    [InlineData(0x9048C064, 9, 1)]
    [InlineData(0xF0000000, 15, 7)]
    public void ObjectPosition_IsGivenInBothWidths(uint word, int since31, int before31)
    {
        new RequestObject(word).ObjectPosition.Should().Be(since31);
        new RequestObject(word).ObjectPositionBeforeR31.Should().Be(before31);
    }

    // GiveBack of R2.0 and R3.0: the low field is the minimum (a public header that quotes R3.0v2.0).
    [Fact]
    public void GiveBack_MakesTheLowFieldAMinimum()
    {
        FixedVariableRequest without = FixedVariableRequest.Create(1, Current.FromMilliamperes(3000), Current.FromMilliamperes(500));
        FixedVariableRequest with = without.Request.With(RequestObject.GiveBackField, true).AsFixedVariable();
        without.MaximumOperatingCurrent.Should().Be(Current.FromMilliamperes(500));
        without.MinimumOperatingCurrent.Should().BeNull();
        with.MaximumOperatingCurrent.Should().BeNull();
        with.MinimumOperatingCurrent.Should().Be(Current.FromMilliamperes(500));

        BatteryRequest battery = BatteryRequest.Create(1, Power.FromMilliwatts(45_000), Power.FromMilliwatts(5_000));
        battery.MaximumOperatingPower.Should().Be(Power.FromMilliwatts(5_000));
        battery.Request.With(RequestObject.GiveBackField, true).AsBattery().MinimumOperatingPower
            .Should().Be(Power.FromMilliwatts(5_000));
    }

    // R3.2v1.1, Table 6.26: the field counts 25 mV, its two lowest bits are zero.
    [Fact]
    public void AvsVoltageBetweenTwoSteps_CanBeRead_NotMade()
    {
        new AvsRequest(0x9048C064 | (1u << 9)).OutputVoltage.Should().Be(Voltage.FromMillivolts(28_025));
        Action call = () => AvsRequest.Create(9, Voltage.FromMillivolts(28_025), Current.FromMilliamperes(5_000));
        call.Should().Throw<ArgumentOutOfRangeException>().WithMessage("*steps of 100*");
    }

    // 11 bits in R3.0, 12 in R3.2: the same below 2048 steps, so up to 40.94 V (arithmetic).
    [Fact]
    public void PpsVoltage_ReadsTheSameInBothWidths_WhileBit20IsClear() =>
        Gen.UInt.Sample(word =>
        {
            uint request = word & ~(1u << 20);
            BitField narrow =
                PpsRequest.LayoutBeforeR31.Fields.Single(field => field.Name == "Output Voltage");
            return narrow.Width == 11
                && narrow.GetScaled(request) == new PpsRequest(request).OutputVoltage.Millivolts;
        });

    [Fact]
    public void FlagChanged_KeepsReservedBits() =>
        new RequestObject(0xFFFF_FFFF).With(RequestObject.CapabilityMismatchField, false).Raw.Should().Be(0xFBFF_FFFF);

    [Fact]
    public void AnyPair_NeverThrows_AndPrints() =>
        Gen.Select(Gen.UInt, Gen.UInt).Sample((request, selected) =>
            RequestTerms.Read(new RequestObject(request), new SourcePowerObject(selected)).ToString().Length > 0
            && new RequestObject(request).ToString().Length > 0);

    private static string Text<T>(T? value)
        where T : struct => value?.ToString() ?? "-";
}
