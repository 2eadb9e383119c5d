using Google.Protobuf.Reflection;
using Grpc.Core;
using Grpc.Health.V1;
using Grpc.Reflection.V1Alpha;

namespace Portwitness.Service.Tests.Hosting;

public sealed class HealthAndReflectionTests(ServiceFixture service) : IClassFixture<ServiceFixture>
{
    [Theory]
    [InlineData("")]
    [InlineData("portwitness.v1.Witness")]
    public async Task Health_IsServing(string name)
    {
        HealthCheckResponse response = await new Health.HealthClient(service.Channel)
            .CheckAsync(new HealthCheckRequest { Service = name });

        response.Status.Should().Be(HealthCheckResponse.Types.ServingStatus.Serving);
    }

    [Fact]
    public async Task Health_OfAnotherService_IsNotFound()
    {
        Func<Task> call = () => new Health.HealthClient(service.Channel)
            .CheckAsync(new HealthCheckRequest { Service = "tarnholt.Railway" }).ResponseAsync;

        (await call.Should().ThrowAsync<RpcException>()).Which.StatusCode.Should().Be(StatusCode.NotFound);
    }

    [Fact]
    public async Task Reflection_ListsTheServices()
    {
        ServerReflectionResponse response = await AskAsync(new ServerReflectionRequest { ListServices = "*" });

        response.ListServicesResponse.Service.Select(listed => listed.Name).Should().BeEquivalentTo(
            "portwitness.v1.Witness", "grpc.health.v1.Health", "grpc.reflection.v1alpha.ServerReflection");
    }

    [Fact]
    public async Task Reflection_DescribesTheMessages()
    {
        ServerReflectionResponse response = await AskAsync(
            new ServerReflectionRequest { FileContainingSymbol = "portwitness.v1.Witness" });

        string[] files =
        [
            .. response.FileDescriptorResponse.FileDescriptorProto
                .Select(file => FileDescriptorProto.Parser.ParseFrom(file).Name),
        ];
        files.Should().Contain(["portwitness/v1/service.proto", "portwitness/v1/power_object.proto"]);
    }

    private async Task<ServerReflectionResponse> AskAsync(ServerReflectionRequest request)
    {
        using AsyncDuplexStreamingCall<ServerReflectionRequest, ServerReflectionResponse> call =
            new ServerReflection.ServerReflectionClient(service.Channel).ServerReflectionInfo();
        await call.RequestStream.WriteAsync(request);
        await call.RequestStream.CompleteAsync();
        (await call.ResponseStream.MoveNext(CancellationToken.None)).Should().BeTrue();
        return call.ResponseStream.Current;
    }
}
