using CsCheck;
using Portwitness.PowerDelivery.Framing;
using Portwitness.PowerDelivery.Headers;
using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.Units;
using Portwitness.PowerDelivery.VendorDefined;

namespace Portwitness.PowerDelivery.Tests.VendorDefined;

/// <summary>Source: R3.2v1.1, 6.4.4 and Figure 6.16; what is from memory says so.</summary>
public sealed class VendorDefinedViewTests
{
    private const uint Ack = 0xFF00A041;
    private const uint AckOfVersion10 = 0xFF008041;

    // Passive cable: one product type VDO; active cable: two.
    [Theory]
    [InlineData(Ack, 3, "Passive Cable VDO")]
    [InlineData(Ack, 4, "Active Cable VDO 1, Active Cable VDO 2")]
    [InlineData(Ack, 6, "VPD VDO")]
    [InlineData(Ack, 5, "Vendor Data Object")]
    [InlineData(AckOfVersion10, 3, "Cable VDO, R2.0")]
    [InlineData(AckOfVersion10, 4, "Cable VDO, R2.0, Vendor Data Object")]
    public void CablesIdHeader_ChoosesTheProductTypeVdos(uint header, uint productType, string names)
    {
        int count = names.Contains("VDO 2") || names.EndsWith("0, Vendor Data Object") ? 2 : 1;
        VendorDefinedView view = Read(SopKind.SopPrime, [header, productType << 27, 0, 0, .. new uint[count]]);
        view.ProductTypeCount.Should().Be(count);
        Layouts(view).Should().Be($"Structured VDM Header, ID Header VDO, cable plug, Cert Stat VDO, Product VDO, {names}");
    }

    // UFP hub 1 and peripheral 2, DFP hub 1, host 2, charger 3. A port that is both: UFP, zeroes, DFP (from memory).
    [Theory]
    [InlineData(1, 0, 1, "UFP VDO")]
    [InlineData(2, 0, 1, "UFP VDO")]
    [InlineData(3, 0, 1, "Vendor Data Object")]
    [InlineData(0, 3, 1, "DFP VDO")]
    [InlineData(0, 4, 1, "Vendor Data Object")]
    [InlineData(2, 2, 2, "UFP VDO, DFP VDO")]
    [InlineData(2, 2, 3, "UFP VDO, Vendor Data Object, DFP VDO")]
    public void PortsIdHeader_ChoosesTheProductTypeVdos(uint ufp, uint dfp, int count, string names)
    {
        VendorDefinedView view = Read(SopKind.Sop, [Ack, (ufp << 27) | (dfp << 23), 0, 0, .. new uint[count]]);
        Layouts(view).Should().Be($"Structured VDM Header, ID Header VDO, Cert Stat VDO, Product VDO, {names}");
    }

    [Fact]
    public void Identity_IsReadAsFarAsItGoes()
    {
        VendorDefinedView view = Read(SopKind.SopPrime, [Ack, 0x18001A2B, 7, 0x01020310, 0x110A2643]);
        view.Header.IsIdentity.Should().BeTrue();
        view.IdHeader!.Value.VendorId.Should().Be(0x1A2B);
        view.CertStat!.Value.Xid.Should().Be(7);
        view.Product!.Value.ProductId.Should().Be(0x0102);
        new PassiveCableVdo(view.ProductTypeAt(0)).EprCapable.Should().BeTrue();
        VendorDefinedView cut = Read(SopKind.SopPrime, [Ack, 0x18001A2B]);
        cut.CertStat.Should().BeNull();
        cut.ProductTypeCount.Should().Be(0);
    }

    // 6.4.4.3.2: two SVIDs an object, 0 ends the list.
    [Fact]
    public void SvidList_IsReadInPairs()
    {
        VendorDefinedView view = Read(SopKind.Sop, [0xFF00A042, 0xFF011A2B, 0]);
        view.IsSvidList.Should().BeTrue();
        view.SvidsAt(1).Should().Be(SvidPair.Create(0xFF01, 0x1A2B));
        view.LayoutAt(1).Fields[1].Describe(view.SvidsAt(2).Raw).Should().Be("end of the list");
    }

    [Theory]
    [InlineData(0xFF00A001)] // REQ of Discover Identity
    [InlineData(0xFF01A041)] // another SVID
    [InlineData(0x1A2B0041)] // unstructured
    [InlineData(0xFF00A043)] // ACK of Discover Modes: modes are the SVID's own
    public void OtherObjects_StayRaw(uint header)
    {
        VendorDefinedView view = Read(SopKind.Sop, [header, 0x12345678]);
        view.LayoutAt(1).Should().BeSameAs(VendorDataObject.Layout);
        view.IdHeader.Should().BeNull();
        view.IsSvidList.Should().BeFalse();
    }

    [Fact]
    public void ObjectsThatAreNotThere_AreBadCalls()
    {
        ((Action)(() => Read(SopKind.Sop, [Ack, 0, 0, 0, 5]).ProductTypeAt(1))).Should().Throw<ArgumentOutOfRangeException>();
        ((Action)(() => Read(SopKind.Sop, [Ack]).LayoutAt(1))).Should().Throw<ArgumentOutOfRangeException>();
        ((Action)(() => Read(SopKind.Sop, [0xFF00A042, 1]).SvidsAt(0))).Should().Throw<ArgumentOutOfRangeException>();
        ((Action)(() => Read(SopKind.Sop, [Ack, 1]).SvidsAt(1))).Should().Throw<ArgumentOutOfRangeException>();
    }

    [Fact]
    public void OtherMessages_AreNone()
    {
        MessageView.TryRead([0xA1, 0x11, 1, 2, 3, 4], out MessageView capabilities).Should().BeTrue();
        VendorDefinedView.TryRead(capabilities, SopKind.Sop, out _).Should().BeFalse();
        MessageView.TryRead([0xAF, 0x11, 1, 2], out MessageView cut).Should().BeTrue();
        VendorDefinedView.TryRead(cut, SopKind.Sop, out _).Should().BeFalse();
    }

    [Fact]
    public void AnyObjects_HaveALayoutEach() =>
        Gen.Select(Gen.UInt.Array[1, 7], Gen.Bool, Gen.Bool).Sample((words, identity, port) =>
        {
            words[0] = identity ? Ack : words[0];
            VendorDefinedView view = Read(port ? SopKind.Sop : SopKind.SopDoublePrime, words);
            return Layouts(view).Length > 0 && view.ProductTypeCount <= 3;
        });

    // Kernel header: 0 3 A, 1 5 A; without charge-through the bit says nothing.
    [Fact]
    public void ChargeThroughCurrent_NeedsChargeThrough()
    {
        VpdVdo device = VpdVdo.Create(0, 0, 0).With(VpdVdo.ChargeThrough5AField, true);
        device.ChargeThroughCurrent.Should().BeNull();
        device.With(VpdVdo.ChargeThroughField, true).ChargeThroughCurrent.Should().Be(Current.FromMilliamperes(5000));
        new VpdVdo(1).ChargeThroughCurrent.Should().Be(Current.FromMilliamperes(3000));
    }

    private static string Layouts(in VendorDefinedView view)
    {
        List<string> names = [];
        for (int i = 0; i < view.Count; i++)
        {
            names.Add(view.LayoutAt(i).Name);
        }

        return string.Join(", ", names);
    }

    private static VendorDefinedView Read(SopKind sop, uint[] words)
    {
        ushort header = MessageHeader.Create(MessageKind.VendorDefined, words.Length, 0, true, true, 2).Raw;
        byte[] bytes = [(byte)header, (byte)(header >> 8), .. words.SelectMany(BitConverter.GetBytes)];
        MessageView.TryRead(bytes, out MessageView message).Should().BeTrue();
        VendorDefinedView.TryRead(message, sop, out VendorDefinedView view).Should().BeTrue();
        return view;
    }
}
