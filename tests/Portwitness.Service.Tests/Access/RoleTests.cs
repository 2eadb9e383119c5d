using System.Reflection;
using Grpc.Core;
using Microsoft.AspNetCore.Authorization;
using Portwitness.Contracts.V1;
using Portwitness.History;
using Portwitness.Service.Access;

namespace Portwitness.Service.Tests.Access;

/// <summary>Which role may call what: every method of the contract, over the wire.</summary>
public sealed class RoleTests
{
    private static readonly string[] ForReaders = ["ListRules", "ListSinks", "ListReports", "GetReport", "GetSubmission", "ListSubmissions"];
    private static readonly string[] ForKeepers = ["RetrySubmission"];

    public static TheoryData<string> Methods => [.. Witness.Descriptor.Methods.Select(static method => method.Name)];

    // What has no role would be open to every token.
    [Theory]
    [MemberData(nameof(Methods))]
    public void Method_StatesItsRoles(string method)
    {
        string[] kinds = [AccessRoles.Readers, AccessRoles.Submitters, AccessRoles.Admin];

        AuthorizeAttribute? asked = typeof(WitnessService).GetMethod(method)!.GetCustomAttribute<AuthorizeAttribute>();

        asked.Should().NotBeNull();
        kinds.Should().Contain(asked!.Roles);
    }

    [Theory]
    [InlineData(TokenRole.Read)]
    [InlineData(TokenRole.Submit)]
    [InlineData(TokenRole.Admin)]
    public async Task Role_MayCallWhatItIsFor_AndNothingElse(TokenRole role)
    {
        await using AccessHost host = await AccessHost.StartAsync("tokens");
        Metadata token = AccessHost.Bearer(await host.NewTokenAsync(role));
        ChannelBase channel = host.Connect();
        List<string> open = [];
        foreach (string method in Witness.Descriptor.Methods.Select(static method => method.Name))
        {
            Status status = await Call.MethodAsync(channel, Witness.Descriptor.FullName, method, token);
            status.StatusCode.Should().NotBe(StatusCode.Unauthenticated).And.NotBe(StatusCode.Unimplemented);
            if (status.StatusCode == StatusCode.PermissionDenied)
            {
                status.Detail.Should().Be("the role of the token does not allow this call.");
                continue;
            }

            open.Add(method);
        }

        string[] all = [.. Witness.Descriptor.Methods.Select(static method => method.Name)];
        open.Should().BeEquivalentTo(role switch
        {
            TokenRole.Read => ForReaders,
            TokenRole.Submit => all.Except(ForKeepers),
            _ => all,
        });
    }

    [Fact]
    public async Task NobodyWithoutAToken_MayCallAnything()
    {
        await using AccessHost host = await AccessHost.StartAsync("tokens");
        ChannelBase channel = host.Connect();
        (string Service, string Method)[] all =
        [
            .. Witness.Descriptor.Methods.Select(static method => (Witness.Descriptor.FullName, method.Name)),
            ("grpc.reflection.v1alpha.ServerReflection", "ServerReflectionInfo"),
            (Witness.Descriptor.FullName, "NoSuchMethod"),
            ("no.such.Service", "NoSuchMethod"),
        ];
        foreach ((string service, string method) in all)
        {
            Status status = await Call.MethodAsync(channel, service, method);

            status.Should().Be(new Status(
                StatusCode.Unauthenticated, "a token is needed: authorization: Bearer TOKEN, made by 'portwitness tokens create'."));
        }
    }

    [Fact]
    public async Task Health_IsOpen_AndReflectionIsForTokensOfAnyRole()
    {
        await using AccessHost host = await AccessHost.StartAsync("tokens");
        ChannelBase channel = host.Connect();
        Metadata bad = AccessHost.Bearer("pw_" + new string('0', 64));

        (await Call.MethodAsync(channel, "grpc.health.v1.Health", "Check")).StatusCode.Should().Be(StatusCode.OK);
        (await Call.MethodAsync(channel, "grpc.health.v1.Health", "Check", bad)).StatusCode.Should().Be(StatusCode.OK);
        foreach (TokenRole role in Enum.GetValues<TokenRole>())
        {
            Metadata token = AccessHost.Bearer(await host.NewTokenAsync(role));
            (await Call.MethodAsync(channel, "grpc.reflection.v1alpha.ServerReflection", "ServerReflectionInfo", token))
                .StatusCode.Should().Be(StatusCode.OK);
            (await Call.MethodAsync(channel, "no.such.Service", "NoSuchMethod", token)).StatusCode.Should().Be(StatusCode.Unimplemented);
        }
    }
}
