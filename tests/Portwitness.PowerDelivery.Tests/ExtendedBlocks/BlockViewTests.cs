using Portwitness.PowerDelivery.ExtendedBlocks;
using Portwitness.PowerDelivery.Tests.Support;
using Portwitness.PowerDelivery.Units;
using Portwitness.PowerDelivery.VendorDefined;

namespace Portwitness.PowerDelivery.Tests.ExtendedBlocks;

/// <summary>What the accessors make of the blocks of shared/vectors/blocks.json.</summary>
public sealed class BlockViewTests
{
    // R3.2v1.1, Table 6.54.
    [Fact]
    public void SourceCapabilitiesExtended_TellsItsFields()
    {
        SourceCapabilitiesExtendedBlock source = new(Block("source-140w"));
        source.VendorId.Should().Be(0x1A2B);
        source.ProductId.Should().Be(0x0102);
        source.Xid.Should().Be(0x1234u);
        source.FirmwareVersion.Should().Be(3);
        source.HardwareVersion.Should().Be(2);
        source.LoadStepOf90Percent.Should().BeTrue();
        source.LoadSlewCode.Should().Be(1);
        source.HoldupTimeMs.Should().Be(3);
        (source.LpsCompliant, source.Ps1Compliant, source.Ps2Compliant).Should().Be((true, false, true));
        (source.LowTouchCurrent, source.GroundPin, source.ProtectiveEarth).Should().Be((true, true, false));
        source.PeakCurrent1.Should().Be(new PeakCurrent(150, 20, 5, true));
        source.PeakCurrent2.Should().Be(new PeakCurrent(0, 0, 0, false));
        source.PeakCurrent3.Should().Be(new PeakCurrent(0, 0, 0, false));
        source.TouchTempCode.Should().Be(1);
        (source.ExternalSupply, source.ExternalSupplyUnconstrained, source.InternalBattery).Should().Be((true, true, false));
        (source.HotSwappableBatterySlots, source.FixedBatteries).Should().Be((2, 1));
        source.SprSourcePdp.Should().Be(Watts(100));
        source.EprSourcePdp.Should().Be(Watts(140));
        source.Remainder.Length.Should().Be(0);
    }

    // 24 bytes before EPR (from memory); 26 stands for a later edition, 6.2.1.2.4.
    [Fact]
    public void SourceCapabilitiesExtended_ShorterAndLonger_AreRead()
    {
        byte[] bytes = BlockVector.Of("source-140w").Bytes;
        SourceCapabilitiesExtendedBlock before = new(DataBlock.Of(bytes.AsSpan(0, 24)));
        before.SprSourcePdp.Should().Be(Watts(100));
        before.EprSourcePdp.Should().BeNull();
        SourceCapabilitiesExtendedBlock later = new(DataBlock.Of([.. bytes, 0x77]));
        later.EprSourcePdp.Should().Be(Watts(140));
        later.Remainder.Bytes.ToArray().Should().Equal(0x77);
    }

    // R3.2v1.1, Table 6.54: codes of 25 and more are 250 %.
    [Fact]
    public void OverloadBeyond250Percent_CountsAs250()
    {
        byte[] bytes = [.. BlockVector.Of("source-140w").Bytes];
        bytes[14] |= 0x1F;
        new SourceCapabilitiesExtendedBlock(DataBlock.Of(bytes)).PeakCurrent1!.Value.OverloadPercent.Should().Be(250);
    }

    // R3.2v1.1, Table 6.65.
    [Fact]
    public void SinkCapabilitiesExtended_TellsItsFields()
    {
        SinkCapabilitiesExtendedBlock sink = new(Block("sink-140w"));
        (sink.VendorId, sink.ProductId, sink.Xid).Should().Be((0x1A2B, 0x0102, 0u));
        (sink.FirmwareVersion, sink.HardwareVersion, sink.BlockVersion).Should().Be((1, 1, 1));
        sink.LoadStepCode.Should().Be(1);
        sink.LoadCharacteristics.Should().Be(new PeakCurrent(120, 40, 20, false));
        (sink.RequiresLps, sink.RequiresPs1, sink.RequiresPs2).Should().Be((true, false, false));
        sink.TouchTempCode.Should().Be(2);
        (sink.HotSwappableBatterySlots, sink.FixedBatteries).Should().Be((0, 1));
        (sink.Pps, sink.VbusPowered, sink.MainsPowered).Should().Be((true, true, false));
        (sink.BatteryPowered, sink.BatteryUnlimited, sink.Avs).Should().Be((true, false, true));
        (sink.SprMinimumPdp, sink.SprOperationalPdp, sink.SprMaximumPdp).Should().Be((Watts(15), Watts(45), Watts(60)));
        (sink.EprMinimumPdp, sink.EprOperationalPdp, sink.EprMaximumPdp).Should().Be((Watts(28), Watts(100), Watts(140)));
        sink.Remainder.Length.Should().Be(0);
        new SinkCapabilitiesExtendedBlock(DataBlock.Of(BlockVector.Of("sink-140w").Bytes.AsSpan(0, 21)))
            .EprMinimumPdp.Should().BeNull();
    }

    // R3.2v1.1, Tables 6.55 and 6.56.
    [Fact]
    public void Status_TellsItsFields()
    {
        StatusBlock status = new(Block("warm-limited"));
        status.InternalTemperature.Should().Be(45);
        (status.ExternalPower, status.ExternalPowerIsAc).Should().Be((true, true));
        (status.BatteryPower, status.OtherInternalPower).Should().Be((false, false));
        (status.FixedBatteries, status.HotSwappableBatteries).Should().Be((0, 1));
        (status.Ocp, status.Otp, status.Ovp, status.CurrentLimit).Should().Be((false, false, false, true));
        status.TemperatureStatusCode.Should().Be(1);
        (status.LimitedByCable, status.LimitedByOtherPorts, status.LimitedByExternalPower).Should().Be((true, false, false));
        (status.LimitedByEvent, status.LimitedByTemperature).Should().Be((false, true));
        (status.PowerStateCode, status.PowerStateIndicatorCode).Should().Be((1, 1));
        status.Remainder.Length.Should().Be(0);

        // The kernel reads five bytes; so did R3.0 with five or six (from memory).
        StatusBlock old = new(DataBlock.Of(BlockVector.Of("warm-limited").Bytes.AsSpan(0, 5)));
        old.TemperatureStatusCode.Should().Be(1);
        old.LimitedByCable.Should().BeNull();

        CablePlugStatusBlock plug = new(Block("plug-shut-down"));
        (plug.InternalTemperature, plug.ThermalShutdown).Should().Be((40, true));
        plug.Remainder.Length.Should().Be(0);
    }

    // R3.2v1.1, Table 6.62: 0xFFFF and 0xFF are "not supported".
    [Fact]
    public void PpsStatus_TellsItsFields()
    {
        PpsStatusBlock status = new(Block("9v-3a-limit"));
        status.OutputVoltage.Should().Be(Voltage.FromMillivolts(9000));
        status.OutputCurrent.Should().Be(Current.FromMilliamperes(3000));
        (status.TellsVoltage, status.TellsCurrent, status.CurrentLimit).Should().Be((true, true, true));
        status.TemperatureStatusCode.Should().Be(1);
        status.Remainder.Length.Should().Be(0);
        PpsStatusBlock silent = new(DataBlock.Of([0xFF, 0xFF, 0xFF, 0]));
        (silent.TellsVoltage, silent.TellsCurrent).Should().Be((false, false));
        (silent.OutputVoltage, silent.OutputCurrent).Should().Be((null, null));
        new PpsStatusBlock(DataBlock.Of([0xC2])).TellsVoltage.Should().BeNull();
    }

    // R3.2v1.1, Table 6.59.
    [Fact]
    public void Batteries_TellTheirFields()
    {
        BatteryCapabilitiesBlock battery = new(Block("74wh"));
        (battery.VendorId, battery.ProductId).Should().Be((0x1A2B, 0x0102));
        battery.DesignCapacity.Should().Be(Energy.FromMilliwattHours(74_000));
        battery.LastFullChargeCapacity.Should().Be(Energy.FromMilliwattHours(70_000));
        battery.InvalidReference.Should().BeFalse();
        battery.Remainder.Length.Should().Be(0);
        new BatteryCapabilitiesBlock(DataBlock.Of([0, 0, 0, 0, 0xFF, 0xFF])).DesignCapacity.Should().BeNull();
        new BatteryReferenceBlock(Block("hot-swappable-5")).Reference.Should().Be(5);
        new BatteryReferenceBlock(DataBlock.Of([5, 6])).Remainder.Length.Should().Be(1);
    }

    // R3.2v1.1, 6.5.7; what cannot be printed is escaped, since it comes from a stranger.
    [Theory]
    [InlineData("54482D363500", "TH-65", 0)]
    [InlineData("54482D3635", "TH-65", 0)]
    [InlineData("1B5B324A00AA", "\\x1B[2J", 1)]
    [InlineData("5CC3A4", "\\x5C\\xC3\\xA4", 0)]
    [InlineData("", "", 0)]
    public void ManufacturerText_EndsAtItsZeroAndIsSafeToPrint(string hex, string text, int left)
    {
        ManufacturerInfoBlock info = new(DataBlock.Of([0x2B, 0x1A, 0x02, 0x01, .. Convert.FromHexString(hex)]));
        (info.VendorId, info.ProductId).Should().Be((0x1A2B, 0x0102));
        info.Text.Should().Be(text);
        info.Remainder.Length.Should().Be(left);
    }

    [Fact]
    public void ManufacturerText_BytesNotShown_AreMarked() =>
        new ManufacturerInfoBlock(DataBlock.Of([0, 0, 0, 0, 0x41, 0, 0x42], [255, 255, 255, 255, 255, 0, 255]))
            .Text.Should().Be("A\\x??B");

    // From memory.
    [Fact]
    public void Countries_AreRead()
    {
        CountryInfoBlock info = new(Block("sweden"));
        info.Country.ToString().Should().Be("SE");
        info.Data.Bytes.ToArray().Should().Equal(0xAA, 0xBB);
        new CountryInfoBlock(DataBlock.Of([0x53])).Country.Should().BeNull();
        CountryCodesBlock codes = new(DataBlock.Of([.. BlockVector.Of("sweden-norway").Bytes, 0x44]));
        codes.Count.Should().Be(2);
        codes.Codes.Select(code => code.ToString()).Should().Equal("SE", "NO");
        codes.Remainder.Bytes.ToArray().Should().Equal(0x44);
        new CountryCodesBlock(DataBlock.Of([1, 0, 0x53, 0x45], [255, 255, 255, 0])).Codes.Should().Equal([null]);
        GetManufacturerInfoBlock asked = new(Block("battery-2"));
        (asked.TargetCode, asked.Reference, asked.Remainder.Length).Should().Be((1, 2, 0));
    }

    // R3.2v1.1, Table 6.67.
    [Theory]
    [InlineData(1, "EPR_Get_Source_Cap")]
    [InlineData(2, "EPR_Get_Sink_Cap")]
    [InlineData(3, "EPR_KeepAlive")]
    [InlineData(4, "EPR_KeepAlive_Ack")]
    [InlineData(0, "reserved (0)")]
    [InlineData(255, "reserved (255)")]
    public void ExtendedControl_NamesItsType(int code, string name)
    {
        ExtendedControlBlock control = ExtendedControlBlock.Create((ExtendedControlType)code);
        control.Block.Bytes.ToArray().Should().Equal((byte)code, 0);
        (control.Type, control.TypeName, control.Data).Should().Be(((ExtendedControlType)code, name, 0));
        control.Remainder.Length.Should().Be(0);
        new ExtendedControlBlock(DataBlock.Blank(0)).TypeName.Should().BeNull();
    }

    [Fact]
    public void VendorDefinedExtended_HasHeaderAndData()
    {
        VendorDefinedExtendedBlock vendor = new(Block("vendor"));
        vendor.Header.Should().Be(VdmHeader.CreateUnstructured(0x1A2B, 0x1234));
        vendor.Data.Bytes.ToArray().Should().Equal(1, 2);
        VendorDefinedExtendedBlock.Create(vendor.Header!.Value, [1, 2]).Block.Should().Be(vendor.Block);
        new VendorDefinedExtendedBlock(DataBlock.Of([1, 2, 3])).Header.Should().BeNull();
    }

    [Fact]
    public void OpaqueBlock_KeepsItsBytes()
    {
        OpaqueBlock.Layout.Fields.Should().BeEmpty();
        new OpaqueBlock(Block("security")).Block.Bytes.ToArray().Should().Equal(1, 2, 3);
    }

    // R3.2v1.1, 6.5.15.1: positions 1 to 7 are filled up with zeroes, EPR objects begin at 8.
    [Fact]
    public void EprList_NumbersItsPositions()
    {
        EprCapabilitiesBlock list = new(Block("epr-140w"));
        list.Objects.Select(item => item.Position).Should().Equal(1, 2, 3, 4, 5, 6, 7, 8, 9);
        list.Objects.Where(item => item.IsPadding).Select(item => item.Position).Should().Equal(6, 7);
        list.Objects.Where(item => item.IsEprPosition).Select(item => item.Raw).Should().Equal(0x0008C1F4, 0xD230968C);
        EprCapabilitiesBlock.Create([0x0881912C, 0x0002D12C, 0x0004B12C, 0x000641F4, 0xE004B1F4], [0x0008C1F4, 0xD230968C])
            .Block.Should().Be(list.Block);
        new EprCapabilitiesBlock(DataBlock.Of([1, 0, 0, 0, 9])).Remainder.Bytes.ToArray().Should().Equal(9);
        Action call = () => EprCapabilitiesBlock.Create(new uint[8], []);
        call.Should().Throw<ArgumentException>();
    }

    // A zero that was not shown is not known to be padding.
    [Fact]
    public void ZeroNotShown_IsNoPadding() =>
        new EprCapabilitiesBlock(DataBlock.Of(new byte[4], new byte[4])).Objects[0].IsPadding.Should().BeFalse();

    private static DataBlock Block(string name) => DataBlock.Of(BlockVector.Of(name).Bytes);

    private static Power Watts(int watts) => Power.FromMilliwatts(watts * 1000);
}
