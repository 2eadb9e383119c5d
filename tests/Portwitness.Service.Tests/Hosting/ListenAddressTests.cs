using Portwitness.Service.Hosting;

namespace Portwitness.Service.Tests.Hosting;

public sealed class ListenAddressTests
{
    [Theory]
    [InlineData("http://127.0.0.1:5000", "http://127.0.0.1:5000")]
    [InlineData("http://127.8.9.10:0", "http://127.8.9.10:0")]
    [InlineData("http://localhost:5000", "http://127.0.0.1:5000")]
    [InlineData("http://[::1]:5000", "http://[::1]:5000")]
    [InlineData("https://127.0.0.1:7443", "https://127.0.0.1:7443")]
    [InlineData("unix:/run/portwitness.sock", "unix:/run/portwitness.sock")]
    public void AddressOfThisMachine_IsTaken(string text, string expected)
    {
        ListenAddress.TryParse(text, out ListenAddress? address, out string? problem).Should().BeTrue();

        (address!.ToString(), address.IsLocal).Should().Be((expected, true));
        problem.Should().BeNull();
    }

    [Theory]
    [InlineData("http://0.0.0.0:5000", false)]
    [InlineData("http://[::]:5000", false)]
    [InlineData("https://192.0.2.1:7443", true)]
    [InlineData("https://[2001:db8::1]:7443", true)]
    public void AddressForOtherMachines_IsTaken_AndKnownAsOne(string text, bool isSecure)
    {
        ListenAddress.TryParse(text, out ListenAddress? address, out _).Should().BeTrue();

        (address!.ToString(), address.IsSecure, address.IsLocal).Should().Be((text, isSecure, false));
    }

    [Theory]
    [InlineData("http://bench.example:5000", "names a host; expected a number")]
    [InlineData("http://*:5000", "expected http://127.0.0.1:PORT")]
    [InlineData("ftp://127.0.0.1:5000", "expected http://127.0.0.1:PORT")]
    [InlineData("https://127.0.0.1:5000?a=b", "expected http://127.0.0.1:PORT")]
    [InlineData("http://127.0.0.1:5000/path", "expected http://127.0.0.1:PORT")]
    [InlineData("http://user@127.0.0.1:5000", "expected http://127.0.0.1:PORT")]
    [InlineData("unix:relative", "absolute path")]
    [InlineData("unix:", "absolute path")]
    [InlineData("", "expected http://127.0.0.1:PORT")]
    public void AnythingElse_IsRefusedWithTheReason(string text, string reason)
    {
        ListenAddress.TryParse(text, out ListenAddress? address, out string? problem).Should().BeFalse();

        address.Should().BeNull();
        problem.Should().Contain(reason);
    }
}
