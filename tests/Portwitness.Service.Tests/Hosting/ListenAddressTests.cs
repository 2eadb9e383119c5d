using Portwitness.Service.Access;

namespace Portwitness.Service.Tests.Hosting;

public sealed class ListenAddressTests
{
    [Theory]
    [InlineData("http://127.0.0.1:5000", "http://127.0.0.1:5000")]
    [InlineData("http://127.8.9.10:0", "http://127.8.9.10:0")]
    [InlineData("http://localhost:5000", "http://127.0.0.1:5000")]
    [InlineData("http://[::1]:5000", "http://[::1]:5000")]
    [InlineData("unix:/run/portwitness.sock", "unix:/run/portwitness.sock")]
    public void AddressOfThisMachine_IsTaken(string text, string expected)
    {
        ListenAddress.TryParse(text, out ListenAddress? address, out string? problem).Should().BeTrue();

        address!.ToString().Should().Be(expected);
        address.IsLocal.Should().BeTrue();
        problem.Should().BeNull();
    }

    [Theory]
    [InlineData("http://bench.example:5000", "names a host")]
    [InlineData("http://*:5000", "expected http://127.0.0.1:PORT")]
    [InlineData("ftp://127.0.0.1:5000", "expected http://127.0.0.1:PORT")]
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

    [Theory]
    [InlineData("http://0.0.0.0:5000", false, false)]
    [InlineData("http://[::]:5000", false, false)]
    [InlineData("http://192.0.2.1:5000", false, false)]
    [InlineData("https://192.0.2.1:5000", true, false)]
    [InlineData("https://127.0.0.1:5000", true, true)]
    public void AddressesForOthers_AreToldApart(string text, bool isSecure, bool isLocal)
    {
        ListenAddress.TryParse(text, out ListenAddress? address, out _).Should().BeTrue();

        (address!.IsSecure, address.IsLocal).Should().Be((isSecure, isLocal));
    }

    [Theory]
    [InlineData("http://127.0.0.1:1", false, false, "")]
    [InlineData("http://192.0.2.1:1", true, true, "nothing would be encrypted")]
    [InlineData("https://192.0.2.1:1", false, true, "needs --certificate")]
    [InlineData("https://127.0.0.1:1", false, false, "needs --certificate")]
    [InlineData("https://192.0.2.1:1", true, false, "anybody could use it")]
    [InlineData("https://192.0.2.1:1", true, true, "")]
    [InlineData("unix:/s", false, false, "")]
    public void OthersAreLetIn_OnlyBehindDoors(string text, bool hasCertificate, bool requiresTokens, string problem)
    {
        ListenAddress.TryParse(text, out ListenAddress? address, out _).Should().BeTrue();
        AccessSettings doors = new() { Certificate = hasCertificate ? "c" : null, Key = hasCertificate ? "k" : null, RequireTokens = requiresTokens };

        if (problem.Length == 0)
        {
            doors.ProblemWith(address!).Should().BeNull();
        }
        else
        {
            doors.ProblemWith(address!).Should().Contain(problem);
        }
    }
}
