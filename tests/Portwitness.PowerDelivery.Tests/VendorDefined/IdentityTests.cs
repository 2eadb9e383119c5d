using CsCheck;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Units;
using Portwitness.PowerDelivery.VendorDefined;

namespace Portwitness.PowerDelivery.Tests.VendorDefined;

public sealed class IdentityTests
{
    // R3.2v1.1, Table 6.29; D1 and D2 of shared/vectors.
    [Theory]
    [InlineData(0xFF00A001, VdmCommandType.Request, "2.0", "Discover Identity", false)]
    [InlineData(0xFF00A041, VdmCommandType.Ack, "2.0", "Discover Identity", true)]
    [InlineData(0xFF00A841, VdmCommandType.Ack, "2.1", "Discover Identity", true)]
    [InlineData(0xFF008041, VdmCommandType.Ack, "1.0", "Discover Identity", true)]
    [InlineData(0xFF00C083, VdmCommandType.Nak, "reserved", "Discover Modes", false)]
    [InlineData(0xFF00A0C0, VdmCommandType.Busy, "2.0", "reserved (0)", false)]
    [InlineData(0x1A2BA050, VdmCommandType.Ack, "2.0", "SVID specific (16)", false)]
    public void StructuredHeader_TellsVersionAndCommand(
        uint word, VdmCommandType type, string version, string command, bool identity)
    {
        VdmHeader header = new(word);
        header.Layout.Should().BeSameAs(VdmHeader.StructuredLayout);
        header.CommandType.Should().Be(type);
        header.VersionText.Should().Be(version);
        header.CommandName.Should().Be(command);
        header.IsIdentity.Should().Be(identity);
    }

    [Fact]
    public void UnstructuredHeader_LeavesItsLowBitsToTheVendor()
    {
        VdmHeader header = new(0x1A2B0041);
        header.Layout.Should().BeSameAs(VdmHeader.UnstructuredLayout);
        header.VendorUse.Should().Be(0x41);
        header.IsIdentity.Should().BeFalse();
    }

    // R3.2v1.1, Table 6.33: the same code is another product on SOP'.
    [Theory]
    [InlineData(0, "none", "none")]
    [InlineData(1, "hub", "reserved (1)")]
    [InlineData(2, "peripheral", "reserved (2)")]
    [InlineData(3, "power sink device", "passive cable")]
    [InlineData(4, "reserved (4)", "active cable")]
    [InlineData(5, "reserved (5)", "reserved (5)")]
    [InlineData(6, "reserved (6)", "VCONN-powered device")]
    [InlineData(7, "reserved (7)", "reserved (7)")]
    public void ProductType_DependsOnWhoAnswers(uint code, string port, string plug)
    {
        IdHeader header = new(code << 27);
        header.ProductTypeName(SopKind.Sop).Should().Be(port);
        header.ProductTypeName(SopKind.SopPrime).Should().Be(plug);
        IdHeader.LayoutFor(SopKind.Sop).Should().BeSameAs(IdHeader.Layout);
        IdHeader.LayoutFor(SopKind.SopPrime).Should().BeSameAs(IdHeader.CablePlugLayout);
    }

    // R3.2v1.1, Table 6.41: 01 and 10 are deprecated and count as 20 V.
    [Theory]
    [InlineData(0, 20_000)]
    [InlineData(1, 20_000)]
    [InlineData(2, 20_000)]
    [InlineData(3, 50_000)]
    public void MaximumVbusCode_IsWorthItsVoltage(uint code, int millivolts)
    {
        new PassiveCableVdo(code << 9).MaximumVbus.Should().Be(Voltage.FromMillivolts(millivolts));
        new ActiveCableVdo1(code << 9).MaximumVbus.Should().Be(Voltage.FromMillivolts(millivolts));
    }

    // R3.2v1.1, Tables 6.41 and 6.42: 01 3 A, 10 5 A; an active cable says so only if VBUS goes through.
    [Theory]
    [InlineData(0, null)]
    [InlineData(1, 3_000)]
    [InlineData(2, 5_000)]
    [InlineData(3, null)]
    public void CurrentCode_IsWorthItsCurrent(uint code, int? milliamperes)
    {
        Current? expected = milliamperes is { } value ? Current.FromMilliamperes(value) : null;
        new PassiveCableVdo(code << 5).MaximumCurrent.Should().Be(expected);
        new CableVdoR20(code << 5).MaximumCurrent.Should().Be(expected);
        new ActiveCableVdo1((code << 5) | (1u << 4)).MaximumCurrent.Should().Be(expected);
        new ActiveCableVdo1(code << 5).MaximumCurrent.Should().BeNull();
    }

    // Kernel header, PD 2.0 cable VDO: bits 10 to 7 are SuperSpeed directions there, bit 17 is reserved.
    [Fact]
    public void AnswerOfVersion10_IsNotLaidOutAsR3x()
    {
        PassiveCableVdo.IsLayoutOf(new VdmHeader(0xFF00A041)).Should().BeTrue();
        PassiveCableVdo.IsLayoutOf(new VdmHeader(0xFF008041)).Should().BeFalse();
        CableVdoR20.Layout.Fields.Should().NotContain(field => field.Name.Contains("Maximum VBUS"));
        CableVdoR20.Layout.ReservedMask.Should().Be((0xFu << 20) | (1u << 17));
    }

    [Fact]
    public void OldCable_TellsPlugAndWires()
    {
        CableVdoR20 cable = new((2u << 18) | (2u << 5) | (1u << 4) | (1u << 3));
        cable.PlugCode.Should().Be(2);
        cable.CurrentCode.Should().Be(2);
        cable.VbusThroughCable.Should().BeTrue();
        cable.SopDoublePrimeController.Should().BeTrue();
    }

    [Fact]
    public void CertStat_IsTheXid() => new CertStat(0xFFFF_FFFF).Xid.Should().Be(0xFFFF_FFFF);

    [Fact]
    public void AnyWord_Prints() => Gen.UInt.Sample(word =>
        new CertStat(word).ToString().Length > 0 && new CableVdoR20(word).ToString().Length > 0
        && new IdHeader(word).ProductTypeName(SopKind.SopPrime).Length > 0);
}
