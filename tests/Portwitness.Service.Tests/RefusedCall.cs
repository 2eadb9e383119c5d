using Google.Rpc;
using Grpc.Core;

namespace Portwitness.Service.Tests;

/// <summary>What a refused call says.</summary>
internal static class RefusedCall
{
    /// <summary>The names of the fields that the service complains about.</summary>
    public static async Task<IEnumerable<string>> FieldsOfAsync(Func<Task> call)
    {
        RpcException exception = (await call.Should().ThrowAsync<RpcException>()).Which;
        exception.StatusCode.Should().Be(StatusCode.InvalidArgument);
        BadRequest details = exception.GetRpcStatus()!.GetDetail<BadRequest>()!;
        details.FieldViolations.Should().OnlyContain(violation => violation.Description.Length > 0);
        return details.FieldViolations.Select(violation => violation.Field);
    }
}
