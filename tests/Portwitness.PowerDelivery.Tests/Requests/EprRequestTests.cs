using Portwitness.PowerDelivery.Messages;
using Portwitness.PowerDelivery.Requests;
using Portwitness.PowerDelivery.Tests.Support;
using Portwitness.PowerDelivery.Units;

namespace Portwitness.PowerDelivery.Tests.Requests;

/// <summary>Source: R3.2v1.1, 6.4.9; bytes of shared/vectors/frames.json.</summary>
public sealed class EprRequestTests
{
    [Fact]
    public void RequestWithItsCopy_IsReadWithoutTheList()
    {
        MessageView.TryRead(Vectors.ParseBytes("89 2A F4 D1 47 80 F4 C1 08 00"), out MessageView message).Should().BeTrue();
        EprRequest.TryRead(message, out EprRequest request).Should().BeTrue();
        request.Request.ObjectPosition.Should().Be(8);
        request.Copy.Raw.Should().Be(0x0008C1F4);
        request.Terms.Voltage.Should().Be(Voltage.FromMillivolts(28_000));
        request.Terms.Current.Should().Be(Current.FromMilliamperes(5_000));
    }

    [Theory]
    [InlineData("89 1A F4 D1 47 80")] // no copy
    [InlineData("89 2A F4 D1 47 80 F4 C1")] // cut short
    [InlineData("82 2A F4 D1 47 80 F4 C1 08 00")] // another message
    public void OtherMessages_AreNone(string hex)
    {
        MessageView.TryRead(Vectors.ParseBytes(hex), out MessageView message).Should().BeTrue();
        EprRequest.TryRead(message, out _).Should().BeFalse();
    }
}
